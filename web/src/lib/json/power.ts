// The JSON of rigproof.power/1. Made by tools/make_types.mjs: not to be edited.

import type { Claim, Quantity } from './common'

/** One a load, in the order of `loads`; an object without a value is not known. */
export type ByLoad = Array<Quantity | Record<string, unknown>>

export interface Part {
  what: string
  part: string
  by_load: ByLoad
}

export interface Wall {
  market?: string
  mains: "115 V" | "230 V"
  /** As it is used, by day and by night. */
  kwh_price?: number
  mains_stated: boolean
  by_load: ByLoad
  /** By load: below the lowest certified load the loss is only bounded. */
  only_bounded: boolean[]
  kwh_per_year?: Quantity
  cost_per_year?: Quantity
  /** This build less the other; negative: it costs less. */
  cost_beside_other?: Quantity
  odds_cheaper?: number
}

export interface Plug {
  plug: string
  feeds: string
  contact?: Quantity
  contact_at_most_a: number
  drop?: Quantity
  loss?: Quantity
}

/** What a build draws, as printed by rigproof power --json */
export interface PowerJson {
  schema: "rigproof.power/1"
  build: string
  brief?: string
  beside?: string
  supply?: string
  loads: Array<"idle" | "title" | "all-core" | "everything">
  parts: Part[]
  sums: ByLoad
  share_of_rating: ByLoad
  walls: Wall[]
  plugs: Plug[]
  claims: Claim[]
  work?: string[]
  notes: string[]
}
