// The JSON of rigproof.repair/1. Made by tools/make_types.mjs: not to be edited.

import type { Build, Change, Claim, Date, Differences, Money, Requirement } from './common'

export interface Wrong {
  what: "part" | "claim"
  id: string
  says: string
  /** Of the brief, which names the part. */
  line?: number
  claim?: Claim
}

/** A build brought back under its brief, as printed by rigproof repair --json */
export interface RepairJson {
  schema: "rigproof.repair/1"
  /** Impossible: no build satisfies the brief; out of reach: not with so few swaps. */
  status: "proven" | "not proven" | "impossible" | "out of reach"
  brief?: string
  brief_file?: string
  as_of?: Date
  /** The first market: scores and prices of parts are in its currency. */
  market?: string
  build: string
  build_file: string
  wrong: Wrong[]
  /** Absent: a part has no price. */
  score_now?: Money
  /** By market. */
  prices_now?: Record<string, Money>
  /** The fewest. */
  swaps?: number
  asked_at_most?: number
  repaired?: Build
  /** From the build to the repaired one. */
  differences?: Differences
  /** From the repaired build to the best one with a swap more; absent though known: that gains nothing. */
  one_more?: Differences
  /** False: stopped before it was known what one swap more gains. */
  one_more_known?: boolean
  /** The swaps of that one, from the build as it is. */
  one_more_from_build?: Change[]
  /** Each irreducible: without any one of its requirements a build exists. */
  conflicts: Requirement[][]
  /** For each conflict the rules in the background that take part. */
  through?: string[][]
  notes?: string[]
}
