// The JSON of rigproof.physics/1. Made by tools/make_types.mjs: not to be edited.

export interface Place {
  /** Unique in its path. */
  id: string
  name: string
  /** What gives heat off, what takes it up and hands it on, air of a part of the case, where it leaves to. */
  kind: "source" | "body" | "room" | "outside"
  temp_c?: number
}

export interface Flow {
  /** Id of a place. */
  from: string
  /** Id of a place. */
  to: string
  power_w?: number
}

export interface WarmCurve {
  name: string
  /** One for each time. */
  temp_c?: number[]
  limit_c?: number
  /** From then on it stays near its end. */
  settled_s?: number
}

export interface Spread {
  /** One for each speed. */
  value?: number[]
  /** Lower end of the 90 % interval at each speed. */
  low?: number[]
  /** Upper end of the 90 % interval at each speed. */
  high?: number[]
}

export interface SweepCurve {
  name: string
  temp_c?: Spread
  limit_c?: number
}

export interface Window {
  /** Length of the window, as 1 ms or sustained. */
  name: string
  /** Lower end of the 90 % interval of the highest mean load over any such window. */
  low_w?: number
  /** Upper end of it. */
  high_w?: number
  /** What the supply allows for it. */
  allowed_w?: number
}

/** Pictures of air and power of a build as numbers */
export interface PhysicsJson {
  schema: "rigproof.physics/1"
  /** Steady: what flows into a body or a room flows out of it. */
  heat_path?: {
    load: string
    /** Of the fans' full speed. */
    fan_speed_percent?: number
    /** Of the cooler's fans, where they turn at another speed. */
    cooler_speed_percent?: number
    /** Air around the case. */
    room_c?: number
    places: Place[]
    flows: Flow[]
  }
  warming?: {
    load: string
    /** From the beginning of the load, rising. */
    time_s?: number[]
    curves: WarmCurve[]
    /** One for each time. */
    noise_dba?: number[]
    notes: string[]
  }
  speed_sweep?: {
    load: string
    /** Of the fans' full speed, rising. */
    speed_percent?: number[]
    temperatures: SweepCurve[]
    noise_dba?: Spread
    /** At most this. */
    noise_limit_dba?: number
    /** Where the plan runs the fans. */
    chosen_percent?: number
    notes: string[]
  }
  supply_windows?: {
    supply: string
    rated_w?: number
    windows: Window[]
  }
}
