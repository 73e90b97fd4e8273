// The JSON of rigproof.insist/1. Made by tools/make_types.mjs: not to be edited.

import type { Build, Date, Differences, Money, Moved, Requirement } from './common'

/** A wish for parts beside the free choice, as printed by rigproof insist --json */
export interface InsistJson {
  schema: "rigproof.insist/1"
  /** Of the build with the wish. */
  status: "proven" | "not proven" | "impossible"
  brief?: string
  brief_file?: string
  as_of?: Date
  /** The first market: scores and prices of parts are in its currency. */
  market?: string
  insisted: Moved[]
  without: Moved[]
  /** The best build without the wish. */
  free?: Build
  /** The best build with it. */
  with?: Build
  /** From the free build to the one with the wish. */
  differences?: Differences
  /** When nothing grants the wish: prices by market of the cheapest build with it, were there no budgets; absent: budgets are not what stands against it. */
  unbudgeted_prices?: Record<string, Money>
  /** How much these are over the budgets; negative: within. */
  over_budgets?: Record<string, Money>
  /** Each irreducible: without any one of its requirements a build exists. */
  conflicts: Requirement[][]
  /** For each conflict the rules in the background that take part. */
  through?: string[][]
  notes?: string[]
}
