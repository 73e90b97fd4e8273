// The JSON of rigproof.plan/1. Made by tools/make_types.mjs: not to be edited.

import type { Build, Date, Money, Requirement } from './common'

export interface Proof {
  bound?: Money
  nodes: number
  leaves: number
  pruned: Record<string, number>
  note?: string
  /** The time limit that ended the search. */
  stopped_after_s?: number
  /** Not proven: no build scores more than this above the first one. */
  at_most_more?: Money
}

/** The best builds for a brief, as printed by rigproof plan --json */
export interface PlanJson {
  schema: "rigproof.plan/1"
  status: "proven" | "not proven" | "impossible"
  brief?: string
  brief_file?: string
  as_of?: Date
  builds: Build[]
  /** Best builds of how many pairs of processor and chip odds_best is counted among. */
  compared?: number
  proof: Proof
  /** The integer program that --export-mps wrote. */
  integer_program?: {
    file: string
    columns: number
    rows: number
    /** Conditions that are not in it: how many checks, by rule. Empty: the program is complete; otherwise its best score may be above the true one, never below. */
    left_out: Record<string, number>
  }
  /** Each irreducible: without any one of its requirements a build exists. */
  conflicts: Requirement[][]
  /** For each conflict the rules in the background that take part. */
  through?: string[][]
  notes?: string[]
}
