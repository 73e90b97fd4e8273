// One bar of BarRows, and how loads and frame times become bars.
import type { Quantity, Title } from '../lib/json/common'
import { spread_of, value_words, with_unit } from '../lib/words'

export interface BarRow {
  name: string
  /** At the end of the name's line. */
  told: string
  /** Absent: unknown. */
  value?: number
  low?: number
  high?: number
  /** A line further out: the slowest frames. */
  whisker?: number
  limit?: number
  limit_told?: string
  measured?: number
  tight?: boolean
}

function bar_of(name: string, told: string, quantity: Quantity): BarRow {
  const row: BarRow = { name, told, value: quantity.value }
  const spread = spread_of(quantity)
  return spread ? { ...row, ...spread } : row
}

/** Milliseconds against the target; tight where the mean frame takes longer than it. */
export function frame_time_row(title: Title): BarRow {
  const name = title.name ?? title.title
  const limit_ms = title.target_fps > 0 ? 1000 / title.target_fps : null
  const goal = limit_ms === null ? {} : { limit: limit_ms, limit_told: with_unit(limit_ms, 'ms', false) }
  const time = title.frame_time_ms
  if (!time) return { name, told: title.why_unknown || 'unknown', ...goal }
  const slow = title.p99_frame_time_ms
  const middle = with_unit(time.value, 'ms', false)
  const told = slow ? `${middle}, slowest 1 % over ${with_unit(slow.value, 'ms', false)}` : middle
  const row: BarRow = { ...bar_of(name, told, time), ...goal }
  if (slow) row.whisker = slow.value
  if (limit_ms !== null && time.value > limit_ms) row.tight = true
  return row
}

export interface LoadRow {
  name: string
  /** Absent or without a value: unknown. */
  load?: Quantity | undefined
  limit?: number | undefined
}
/** A load against its limit; tight where the interval reaches over it. */
export function load_row({ name, load, limit }: LoadRow): BarRow {
  const goal = limit === undefined ? {} : { limit }
  if (!load) return { name, told: 'unknown', ...goal }
  const row: BarRow = { ...bar_of(name, value_words(load), load), ...goal }
  if (limit !== undefined) {
    row.limit_told = with_unit(limit, load.unit)
    if (Math.max(load.value, row.high ?? 0) > limit) row.tight = true
  }
  return row
}
