// The JSON of rigproof.rules/1. Made by tools/make_types.mjs: not to be edited.

/** The rules behind the claims, as printed by rigproof rules --json */
export interface RulesJson {
  schema: "rigproof.rules/1"
  /** In the order claims are made. */
  rules: Array<{
    id: string
    about: string
    grade: "must" | "tells"
    in_a_plan: "filter" | "bit table" | "check + tables" | "sum" | "check" | "prices" | "only told"
    kinds: Array<"cpu" | "board" | "memory" | "gpu" | "storage" | "cooler" | "case" | "psu" | "fan" | "display" | "other">
    /** table.column */
    reads: string[]
    basis: "standard" | "handbook" | "part data" | "model" | "measured" | "common practice"
    source: string
  }>
}
