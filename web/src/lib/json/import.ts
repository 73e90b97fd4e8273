// The JSON of rigproof.import/1. Made by tools/make_types.mjs: not to be edited.

export interface Row {
  /** Row key in the catalog's table. */
  row: string
  /** In the pasted table. */
  line?: number
  cells: Array<{
    column: string
    /** As the catalog has it; absent: unknown. */
    old?: string
    /** As the catalog would have it; absent: unknown from now on. */
    new?: string
  }>
}

/** A pasted table held against a catalog, as printed by rigproof import --json */
export interface ImportJson {
  schema: "rigproof.import/1"
  /** The folder, as given. */
  catalog: string
  /** The catalog's table that is fed. */
  table: string
  /** File; - is standard input. */
  pasted: string
  mapping: string
  /** Of the pasted table; new, changed, unchanged, left_out and unmatched add up to it. */
  rows: number
  /** False: a preview. */
  written: boolean
  /** Rows the catalog does not have. */
  new: Row[]
  /** Rows with at least one other value. */
  changed: Row[]
  unchanged: number
  /** Bad rows left out with --skip-bad. */
  left_out: number
  /** What rows that match no part said for it. */
  unmatched: string[]
  /** Columns a file did not have. */
  new_columns: string[]
  provenance: {
    source: string
    seen: string
    method: "stated" | "measured" | "estimated" | "invented"
    /** Rows of provenance.csv that come with it. */
    new: Row[]
    /** Rows of provenance.csv that spoke of the old values. */
    changed: Row[]
  }
  /** Written, or to be written. */
  files: string[]
}
