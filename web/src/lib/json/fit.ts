// The JSON of rigproof.fit/1. Made by tools/make_types.mjs: not to be edited.

import type { Box, Claim, ClaimChange, Dimension, Gap, WorkingCell } from './common'

/** Keys not named here may stand beside these. Millimetres; the case stands as it is used. x runs from the inside of the rear panel to the front, y from the tray towards the side panel that opens, z from the inside of the bottom upwards. */
export interface Scene {
  schema: "rigproof.scene/1"
  title: string
  /** The case outside, along x, y and z; 0: not stated. */
  size_mm: [number, number, number]
  /** What is farther from the side panel first. */
  boxes: Box[]
  /** Nearest to failing first. */
  gaps: Gap[]
  dimensions: Dimension[]
  /** What is not known and therefore drawn dashed. */
  notes: string[]
}

export interface Seat {
  /** Of the case; absent: no mount has a place left. */
  mount?: string
  what: string
  /** Id. */
  part: string
  /** Mount that the build file names for it; absent: chosen by the engine. */
  wished?: string
  /** Fans sold with the case on that mount, which make room for it. */
  displaced_fans?: number
}

/** Positions of mounting holes by letter. */
export interface Standoffs {
  known: boolean
  why_not?: string
  /** A standoff and a screw. */
  used: string
  /** A standoff only where the board has a hole. */
  if_holed: string
  /** A standoff here would touch the board: a short circuit. */
  must_be_empty: string
  /** Of other boards; nothing of this one lies above. */
  beyond_board: string
  shared: string
  doubtful: string
  notes: string[]
}

export interface Fastener {
  what_for: string
  part: string
  at_least?: number
  at_most?: number
  kind?: string
  known: "looked up" | "computed" | "from memory" | "common practice, no source" | "doubtful" | "not known"
  note?: string
}

export interface ToMeasure {
  cell: WorkingCell
  /** Claims whose verdict hangs on the cell. */
  claims: string[]
}

export interface MeasuredHere {
  /** As measured. */
  cell: WorkingCell
  /** In words, with its half-width. */
  now: string
  /** What the catalog says, in words. */
  was: string
  /** Some claim of this build looks at it. */
  read: boolean
}

/** Where everything of a build sits, as printed by rigproof fit --json */
export interface FitJson {
  schema: "rigproof.fit/1"
  build: string
  /** Name of the brief it is judged under; absent: alone. */
  brief?: string
  /** Name; absent: the build has none. */
  case?: string
  seats: Seat[]
  /** Those of this engine. */
  claims: Claim[]
  standoffs: Standoffs
  /** In the order of work. */
  fasteners: Fastener[]
  /** What most verdicts hang on first. */
  to_measure: ToMeasure[]
  /** Cells that stand in place of the catalog's. */
  measured: MeasuredHere[]
  /** Claims that say something else because of what was measured. */
  turned: ClaimChange[]
  scene: Scene
}
