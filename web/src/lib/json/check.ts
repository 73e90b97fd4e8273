// The JSON of rigproof.check/1. Made by tools/make_types.mjs: not to be edited.

/** What a catalog holds, as printed by rigproof check --json */
export interface CheckJson {
  schema: "rigproof.check/1"
  /** The folder, as given. */
  catalog: string
  parts: number
  /** Bad rows left out with --skip-bad. */
  skipped_rows: number
  /** Every table of the schema, in its order. */
  tables: Array<{
    table: string
    present: boolean
    rows: number
    /** Beside the key columns. */
    cells: number
    /** Empty ones of these. */
    unknown: number
    /** Filled ones that provenance.csv speaks of. */
    sourced: number
    /** Sourced cells by provenance.csv's method; `not said` where its row names none. */
    methods: Record<string, number>
    /** Earliest day of the provenance rows that speak of its cells. */
    oldest?: string
  }>
  /** File of the brief whose parts were counted; absent: all parts. */
  brief?: string
  /** The user stopped the count: rules and cells hold what was reached. */
  stopped: boolean
  /** Every rule that gives verdicts over these parts, and what absent cells cost it (docs/decisions/0006-what-to-look-up-first.md). */
  rules: Array<{
    rule: string
    grade: "must" | "tells"
    /** Three or more kinds: judged on drawn combinations, not on all. */
    sampled: boolean
    /** Verdicts it gives over the parts and pairs of parts counted. */
    judgements: number
    /** Of these, unknown because of absent cells. */
    unknown: number
    /** Parts left out by a cap; 0: none. */
    parts_set_aside: number
  }>
  /** The cells that settle most, first one first; as many as --top asks for. */
  look_up: Array<{
    table: string
    /** Its row key; the part's id when a whole relation is absent. */
    row: string
    /** `*`: the part has no row in the relation. */
    column: string
    /** Verdicts for which it alone is absent. */
    settles: number
    /** The same with 1/m of each verdict for which m cells are absent together. */
    settles_with_shares: number
    rules: Array<{
      rule: string
      settles: number
      settles_with_shares: number
    }>
    meaning: string
    /** Where one usually finds it. */
    where: string
  }>
  /** How many absent cells have any share in a verdict. */
  cells_that_settle: number
  /** Every column with an empty cell, the most costly first. */
  columns: Array<{
    table: string
    column: string
    cells: number
    unknown: number
    settles: number
    settles_with_shares: number
    rules: string[]
  }>
  /** Values outside what their column usually has: allowed, never corrected. */
  second_look: Array<{
    file: string
    line: number
    /** Place in the line, in characters from 1. */
    at?: number
    table: string
    row: string
    column: string
    value: number
    usual: [number, number]
    unit: string
  }>
  /** Parts without any offer, by kind. */
  not_offered: Array<{
    kind: string
    parts: number
    /** The first of their ids. */
    first: string[]
  }>
}
