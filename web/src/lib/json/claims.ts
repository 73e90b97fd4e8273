// The JSON of rigproof.claims/1. Made by tools/make_types.mjs: not to be edited.

import type { Claim } from './common'

/** Every claim of a build, as printed by rigproof claims --json */
export interface ClaimsJson {
  schema: "rigproof.claims/1"
  build: string
  claims: Claim[]
}
