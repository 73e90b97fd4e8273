// What several of the answers have in common. Made by tools/make_types.mjs: not to be edited.

/** The same parts on other mounts, or fans at other speeds; tried: it makes the claim hold and breaks nothing else. */
export interface Adjustment {
  /** A mount of the case. */
  radiator_at?: string
  fans_at?: string
  case_speed_percent?: number
  cooler_speed_percent?: number
}

export interface Box {
  name: string
  /** Id of the part; empty for what is no part. */
  part: string
  use: "outline" | "board" | "memory" | "card" | "cooler" | "radiator" | "fan" | "supply" | "drive" | "bend"
  /** Low and high edge. */
  x: [number, number]
  /** Low and high edge. */
  y: [number, number]
  /** Low and high edge. */
  z: [number, number]
  /** For x, y and z: false where the place is not known. The edges there are only where it is drawn; nothing may be computed with them. */
  placed: [boolean, boolean, boolean]
  /** For x, y and z: false where the size is not known either. */
  sized: [boolean, boolean, boolean]
}

export interface Build {
  score: Money
  /** By market. */
  prices: Record<string, Money>
  parts: Parts
  /** The same parts in order of mounting. */
  places?: Place[]
  titles: Title[]
  /** The share of the draws in which the first build scores higher; absent at the first. */
  odds_first_beats?: Odds
  /** Beyond the number asked for, because it is best in more than 5 % of the draws. */
  rival?: true
  odds_best?: Odds
  odds_all_hold?: Odds
  claims: Claim[]
}

/** One kind of which the parts differ. */
export interface Change {
  kind: string
  out: Moved[]
  in: Moved[]
  /** Parts changed: a part is a row of the catalog, whatever the number of pieces. */
  swaps: number
}

export interface Claim {
  /** engine.name, stable */
  id: string
  grade: "must" | "tells"
  /** Which socket, cable, title or market, when an id repeats. */
  where: string
  subjects: string[]
  load: string
  statement: string
  value?: Quantity | Word
  limit?: Limit
  /** Signed; positive is room left. */
  margin?: Quantity | Word
  /** Of the limit's size. */
  margin_frac?: number
  odds?: Odds
  verdict: "holds" | "thin" | "doubtful" | "fails" | "unknown"
  basis: "standard" | "handbook" | "part data" | "model" | "measured" | "common practice"
  source: string
  remedy: string
  /** What would go wrong; absent where it holds. */
  consequence?: string
  swap?: Swap
  adjustment?: Adjustment
  missing: Missing[]
  working?: Working
  measured?: Measured
}

export interface ClaimChange {
  id: string
  where: string
  load: string
  /** Absent: nothing to claim there. */
  from?: Standing
  to?: Standing
}

export type Date = string

export interface Differences {
  /** Absent: the first build has no price. */
  score_change?: Money
  /** By market. */
  price_changes?: Record<string, Money>
  swaps: number
  changes: Change[]
  title_changes: TitleChange[]
  claim_changes: ClaimChange[]
}

export interface Dimension {
  /** Empty for the number alone. */
  text: string
  axis: "x" | "y" | "z"
  from_mm: number
  to_mm: number
  plus_minus_mm: number
  /** Where the thing measured lies. */
  at_mm: [number, number, number]
}

export interface Gap {
  /** Id of the claim. */
  claim: string
  /** As in the claim, when an id repeats. */
  where: string
  axis: "x" | "y" | "z"
  from_mm: number
  /** Less than from_mm when the two overlap. */
  to_mm: number
  /** A point in the middle of the gap. */
  at_mm: [number, number, number]
  value_mm: number
  limit_mm: number
  /** Negative is missing. */
  margin_mm: number
  verdict: "holds" | "thin" | "doubtful" | "fails" | "unknown"
}

export type Limit = {
  relation: Relation
  value: number
  unit: string
} | {
  relation: Relation
  text: string
}

/** The claim's own number as it was measured, in the unit of its value. */
export interface Measured {
  value: number
  log: string
  date?: Date
  /** Empty: nothing was claimed before. */
  settled: "" | "confirmed" | "off" | "refuted"
}

export interface Missing {
  table: string
  row: string
  column: string
  how: string
}

/** Exact: minor units of an ISO 4217 currency. */
export interface Money {
  currency: string
  minor: number
}

export interface Moved {
  id: string
  name: string
  count: number
  /** Of all pieces, in the first market; absent: it has none there. */
  price?: Money
  /** That it is kept, or why it has no price somewhere. */
  note?: string
}

export type Odds = number

export type OneOrMore = string | PartList

export type PartList = Array<{
  id: string
  count: number
}>

/** By kind: one part is its id, several are a list; storage, fan, display and other are always a list. */
export interface Parts {
  storage?: PartList
  fan?: PartList
  display?: PartList
  other?: PartList
  cpu?: OneOrMore
  board?: OneOrMore
  memory?: OneOrMore
  gpu?: OneOrMore
  cooler?: OneOrMore
  case?: OneOrMore
  psu?: OneOrMore
}

export interface Place {
  place: string
  kind: string
  id: string
  name?: string
  maker?: string
  maker_code?: string
  count: number
  origin: "chosen" | "kept" | "forced"
  why?: string
  because_cost?: Money
  runner_up?: RunnerUp
}

export interface Quantity {
  /** The median. */
  value: number
  /** 5 %; absent when certain. */
  low?: number
  /** 95 %; absent when certain. */
  high?: number
  unit: string
}

export type Relation = "at_most" | "at_least" | "equals" | "one_of"

/** The smallest easing of this requirement under which its conflict is none, with the rest of the brief, but for the other conflicts, as it is. Absent when the search was stopped before the conflict was irreducible. */
export interface Relaxation {
  /** value: at money_to or value_to a build exists, and at none nearer to what is asked. drop: only without the requirement. not enough: not even without it. */
  how: "value" | "drop" | "not enough" | "stopped"
  says: string
  money_to?: Money
  money_by?: Money
  value_to?: number
  value_by?: number
  unit?: "l" | "frac" | "GiB" | "GB" | "fps" | "d"
  /** Looked for in whole steps of this size. Absent: exact. */
  step?: number
}

export interface Requirement {
  /** In the brief, such as markets.IE.budget. */
  path: string
  /** Of the brief; 0 for a default. */
  line: number
  says: string
  relaxation?: Relaxation
}

export interface RunnerUp {
  id: string
  /** Empty: nothing satisfies the brief without the part. */
  name: string
  score_change?: Money
  price_change?: Money
  gains: string[]
  loses: string[]
}

export interface Standing {
  verdict: "holds" | "thin" | "doubtful" | "fails" | "unknown"
  value?: Quantity | Word
  limit?: Limit
  margin?: Quantity
  margin_frac?: number
  odds?: Odds
}

/** One part for another; tried: it makes the claim hold and breaks nothing else. */
export interface Swap {
  kind: string
  /** Part id; empty: the part is added. */
  out: string
  /** Part id; empty: the part is left out. */
  in: string
  count: number
}

export interface Title {
  title: string
  name?: string
  resolution?: string
  render_scale?: number
  generated_per_rendered?: number
  weight?: number
  target_fps: number
  floor_fps?: number
  rendered_fps?: Quantity
  displayed_fps?: Quantity
  p99_frame_time_fps?: Quantity
  frame_time_ms?: Quantity
  p99_frame_time_ms?: Quantity
  why_unknown?: string
}

export interface TitleChange {
  title: string
  name: string
  target_fps: number
  /** Rendered; absent: unknown. */
  from_fps?: Quantity
  to_fps?: Quantity
}

export interface Word {
  text: string
}

/** What is compared, and every cell that went in, in reading order. */
export interface Working {
  equation: string
  cells: WorkingCell[]
  cells_left_out: number
}

export interface WorkingCell {
  /** Whose it is; empty: of no part. */
  part: string
  meaning: string
  table: string
  row: string
  column: string
  value: Quantity | Word
  /** Empty: as stated. */
  certainty: string
  source: string
  /** The claim's value is this very cell; no key: it is not. */
  claimed?: true
}
