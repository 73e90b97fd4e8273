// The JSON of rigproof.outlook/1. Made by tools/make_types.mjs: not to be edited.

export interface Count {
  /** Counted: every one was looked at, exact. Few found: fewer than five probes ended in a build, too few to say how many. At least: likewise without a requirement, where no fewer are left than with it. None found: no probe ended in a build, which proves nothing. Not known: stopped before. */
  how: "counted" | "estimated" | "few found" | "at least" | "none found" | "not known"
  /** With how counted or estimated. */
  builds?: number
  /** 5 %, with how estimated. */
  low?: number
  /** 95 %, with how estimated. */
  high?: number
  probes?: number
  /** Probes that ended in a build; where physics was judged on some of them, of these. */
  found?: number
  /** Builds whose temperatures and noise were judged. */
  judged_by_physics?: number
}

export interface Line {
  path: string
  /** Of the brief; absent: a default that no line states. */
  line?: number
  says: string
  /** As sentences call it: the budget in IE. */
  noun: string
  /** Builds that there would be without it, with everything else kept. */
  count: Count
  count_says: string
}

/** How many builds a brief leaves possible, as printed by rigproof outlook --json */
export interface OutlookJson {
  schema: "rigproof.outlook/1"
  brief: string
  brief_file?: string
  as_of: string
  stopped: boolean
  /** How many are left, then which requirement forbids most of the rest. */
  sentences: string[]
  /** Builds that the slots allow, whatever they cost and whether they fit. */
  all: {
    builds: number
    digits: string
  }
  possible: Count
  /** Each requirement of the brief, the one that forbids most first. */
  without: Line[]
  notes: string[]
}
