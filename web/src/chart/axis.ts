// The ground charts stand on: axes with ticks at round numbers, and room for labels beside each other.
import { fixed, grouped } from '../lib/numbers'

export interface Axis {
  from: number
  to: number
  from_px: number
  to_px: number
  /** Between ticks, a round number. */
  step: number
}

/** The smallest of 1, 2, 5 times a power of ten that is at least this. In: > 0, finite. */
export function round_step(at_least: number): number {
  const power = 10 ** Math.floor(Math.log10(at_least))
  for (const factor of [1, 2, 5]) if (factor * power >= at_least * (1 - 1e-9)) return factor * power
  return 10 * power
}

export function px_of(axis: Axis, value: number): number {
  return axis.from_px + ((value - axis.from) / (axis.to - axis.from)) * (axis.to_px - axis.from_px)
}
export function value_at(axis: Axis, px: number): number {
  return axis.from + ((px - axis.from_px) / (axis.to_px - axis.from_px)) * (axis.to - axis.from)
}
export function ticks_of(axis: Axis): number[] {
  const first = Math.ceil(axis.from / axis.step - 1e-6)
  const last = Math.floor(axis.to / axis.step + 1e-6)
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * axis.step)
}
/** `20`, `0.5`, `1,200`: with the decimals the step needs. */
export function tick_label(axis: Axis, tick: number): string {
  const decimals = Math.min(9, Math.max(0, -Math.floor(Math.log10(axis.step) + 1e-9)))
  const text = fixed(tick === 0 ? 0 : tick, decimals)
  const shown = Math.abs(tick) >= 1000 ? text.replace(/\B(?=(\d{3})+$)/g, ',') : grouped(text)
  return shown.replace('-', '\u2212')
}

function widened(low: number, high: number): [number, number] {
  if (high - low > 1e-9 * Math.max(1, Math.abs(low), Math.abs(high))) return [low, high]
  const around = Math.max(1, 0.05 * Math.abs(high))
  return [low - around, high + around]
}
const step_for = (span: number, from_px: number, to_px: number, tick_px: number) =>
  round_step((span * tick_px) / Math.max(Math.abs(to_px - from_px), 1))

/** Covers both values, from a tick to a tick, about `tick_px` apart or more. In: low <= high. */
export function axis_over(low: number, high: number, from_px: number, to_px: number, tick_px: number): Axis {
  const [a, b] = widened(low, high)
  const step = step_for(b - a, from_px, to_px, tick_px)
  const from = Math.floor(a / step + 1e-9) * step
  return { from, to: Math.ceil(b / step - 1e-9) * step, from_px, to_px, step }
}
/** From value to value, ticks where they fall. */
export function axis_within(low: number, high: number, from_px: number, to_px: number, tick_px: number): Axis {
  const [from, to] = widened(low, high)
  return { from, to, from_px, to_px, step: step_for(to - from, from_px, to_px, tick_px) }
}

let pen: CanvasRenderingContext2D | null = null

/**
 * Width of a text in the narrow face: measured once the face is there; before that, and without a
 * page, on the safe side for whatever face stands in.
 */
export function text_width(text: string, text_px = 13): number {
  if (typeof document === 'undefined' || !document.fonts.check(`${text_px}px Sheet`))
    return text.length * 0.54 * text_px
  pen ??= document.createElement('canvas').getContext('2d')
  if (!pen) return text.length * 0.54 * text_px
  pen.font = `600 ${text_px}px Sheet, sans-serif`
  return pen.measureText(text).width + 2
}
/** Cut with an ellipsis to what fits. */
export function fitting(text: string, width_px: number, text_px = 13): string {
  if (text_width(text, text_px) <= width_px) return text
  let letters = text.length - 1
  while (letters > 0 && text_width(`${text.slice(0, letters)}\u2026`, text_px) > width_px) letters -= 1
  return letters < 1 ? '' : `${text.slice(0, letters).trimEnd()}\u2026`
}

/**
 * Places for blocks of one size, as near to where they want to be as can be with that room between
 * them, all between low and high (least squares: neighbours that overlap are pooled). The answer is
 * in the order given.
 */
export function spread_out(wanted: readonly number[], size: number, low: number, high: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0))
  const pools: Array<{ sum: number; count: number }> = []
  for (const [rank, index] of order.entries()) {
    let next = { sum: (wanted[index] ?? 0) - rank * size, count: 1 }
    for (let last = pools.at(-1); last && last.sum / last.count > next.sum / next.count; last = pools.at(-1)) {
      next = { sum: next.sum + last.sum, count: next.count + last.count }
      pools.pop()
    }
    pools.push(next)
  }
  const room = high - (wanted.length - 1) * size
  const out = new Array<number>(wanted.length).fill(0)
  let rank = 0
  for (const { sum, count } of pools)
    for (let k = 0; k < count; k += 1, rank += 1) {
      const index = order[rank]
      if (index !== undefined) out[index] = Math.max(low, Math.min(sum / count, room)) + rank * size
    }
  return out
}

/** SVG path data through points, thinned to the least and greatest of each half pixel. */
export function curve_path(xs: readonly number[], ys: readonly (number | null)[]): string {
  const out: string[] = []
  let pen = 'M'
  const put = (i: number) => {
    const y = ys[i]
    if (y === null || y === undefined) return
    out.push(`${pen}${round2(xs[i] ?? 0)} ${round2(y)}`)
    pen = 'L'
  }
  for (let i = 0; i < xs.length; ) {
    if (ys[i] === null) {
      pen = 'M'
      i += 1
      continue
    }
    const slot = Math.floor(2 * (xs[i] ?? 0))
    let end = i
    let least = i
    let greatest = i
    for (; end < xs.length && ys[end] !== null && Math.floor(2 * (xs[end] ?? 0)) === slot; end += 1) {
      if ((ys[end] ?? 0) < (ys[least] ?? 0)) least = end
      if ((ys[end] ?? 0) > (ys[greatest] ?? 0)) greatest = end
    }
    for (const k of new Set([i, Math.min(least, greatest), Math.max(least, greatest), end - 1])) put(k)
    i = end
  }
  return out.join('')
}
const round2 = (value: number) => Math.round(value * 100) / 100

/** Seconds, minutes or hours for a span of time. */
export function time_unit(span_s: number): { seconds: number; name: string } {
  if (span_s <= 180) return { seconds: 1, name: 'seconds' }
  if (span_s <= 3 * 3600) return { seconds: 60, name: 'minutes' }
  return { seconds: 3600, name: 'hours' }
}
