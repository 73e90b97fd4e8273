// The JSON of rigproof.air/1. Made by tools/make_types.mjs: not to be edited.

import type { Claim, Missing, Quantity } from './common'

export interface Part {
  what: string
  temperature?: Quantity
  power_w: number
  asked_w: number
  lost?: Quantity
}

export interface Source {
  what: string
  level?: Quantity
}

export interface Load {
  /** idle, title, all-core, everything, or a load of the brief's own. */
  load: string
  known: boolean
  speed_percent?: number
  /** Of the cooler's fans; speed_percent is of the case's. */
  cooler_speed_percent?: number
  /** The least that keeps every limit; full, as no speed keeps them all in every draw; as the build or the caller sets it. */
  speed_from?: "least" | "full" | "set"
  /** The limit that sets the speed of the fans, or that is passed furthest at full speed. */
  held_by?: string
  /** Speeds of their own for the case's fans and the cooler's: they keep every limit too and are quieter. */
  apart?: {
    speed_percent: number
    cooler_speed_percent: number
    noise: Quantity
  }
  parts?: Part[]
  followers?: Follower[]
  warm?: Warm[]
  upper_c?: number
  lower_c?: number
  exhaust?: Quantity
  through_m3_h?: number
  changes_per_minute?: number
  pressure_pa?: number
  by_fans_percent?: number
  /** Where air enters, the most first. */
  inlets?: Array<{
    /** A mount of the case; gaps. */
    where: string
    flow_m3_h: number
    filtered: boolean
  }>
  stalled?: boolean
  blown_backwards?: boolean
  sources?: Source[]
  noise?: Quantity
  /** Together with the room's own level, where the brief states it. */
  noise_with_room?: Quantity
}

export interface Follower {
  what: string
  temperature: Quantity
}

export interface Warm {
  what: string
  warm?: Quantity
  rest?: Quantity
  slows_after_s?: number
}

/** How air goes through a build, as printed by rigproof air --json */
export interface AirJson {
  schema: "rigproof.air/1"
  build: string
  brief?: string
  room_c?: number
  distance_m?: number
  loads: Load[]
  claims: Claim[]
  missing: Missing[]
  work?: string[]
  notes: string[]
}
