// What Lines draws, and how the answers' warming and fan-speed sweep become it.
import type { PhysicsJson } from '../lib/json/physics'
import { time_unit } from './axis'

export interface LineSeries {
  name: string
  /** One for each x; null: not known there. */
  values: readonly (number | null)[]
  low?: readonly number[]
  high?: readonly number[]
  limit?: number
}
export interface LinePanel {
  label: string
  unit: string
  series: readonly LineSeries[]
  height_px?: number
}
export interface LineChart {
  xs: number[]
  along: string
  panels: LinePanel[]
  mark?: { x: number; text: string }
}

/** Temperatures, and noise where it is known, over the time since a load began; null: nothing to draw. */
export function warming_lines(warming: NonNullable<PhysicsJson['warming']>): LineChart | null {
  const times = warming.time_s ?? []
  const first = times[0]
  const last = times.at(-1)
  if (first === undefined || last === undefined || last <= first) return null
  const unit = time_unit(last - first)
  const series = warming.curves.flatMap((curve): LineSeries[] => {
    if (curve.temp_c?.length !== times.length) return []
    const line: LineSeries = { name: curve.name, values: curve.temp_c }
    return [curve.limit_c === undefined ? line : { ...line, limit: curve.limit_c }]
  })
  if (series.length === 0) return null
  const panels: LinePanel[] = [{ label: 'temperature', unit: '°C', series }]
  if (warming.noise_dba?.length === times.length)
    panels.push({
      label: 'noise', unit: 'dB(A)', height_px: 70, series: [{ name: 'noise', values: warming.noise_dba }]
    })
  return { xs: times.map((time) => time / unit.seconds), along: `${unit.name} under load`, panels }
}

/** Temperatures and noise over the speed of the fans; null: nothing to draw. */
export function sweep_lines(sweep: NonNullable<PhysicsJson['speed_sweep']>): LineChart | null {
  const xs = sweep.speed_percent ?? []
  if (xs.length < 2) return null
  const line = (name: string, spread: { value?: number[]; low?: number[]; high?: number[] } | undefined, limit?: number) => {
    if (spread?.value?.length !== xs.length) return []
    const out: LineSeries = { name, values: spread.value }
    if (spread.low?.length === xs.length && spread.high?.length === xs.length) {
      out.low = spread.low
      out.high = spread.high
    }
    if (limit !== undefined) out.limit = limit
    return [out]
  }
  const hot = sweep.temperatures.flatMap((curve) => line(curve.name, curve.temp_c, curve.limit_c))
  const loud = line('noise', sweep.noise_dba, sweep.noise_limit_dba)
  const panels: LinePanel[] = []
  if (hot.length > 0) panels.push({ label: 'temperature', unit: '°C', series: hot })
  if (loud.length > 0) panels.push({ label: 'noise', unit: 'dB(A)', series: loud, height_px: 130 })
  if (panels.length === 0) return null
  const out: LineChart = { xs, along: 'fan speed, % of full', panels }
  if (sweep.chosen_percent !== undefined)
    out.mark = { x: sweep.chosen_percent, text: `runs at ${Math.round(sweep.chosen_percent)} %` }
  return out
}
