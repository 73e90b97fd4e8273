// The JSON of rigproof.serve/1. Made by tools/make_types.mjs: not to be edited.

/** What rigproof serve --json prints once it listens */
export interface ServeJson {
  schema: "rigproof.serve/1"
  /** Where the pages are; with the token where there is one */
  address: string
}
