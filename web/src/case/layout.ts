// Lays a view of the case out for the screen: scale, dimension lines outside the outline (ISO 129-1:
// short ones next to it, longer ones farther out), names where there is room for them. Pixels.
import { text_width } from '../chart/axis'
import type { Dimension, Gap } from '../lib/json/common'
import type { SceneJson } from '../lib/json/scene'
import { readable } from '../lib/numbers'
import { is_tight, percent_words } from '../lib/words'
import { Placer, type Label } from './placer'
import {
  along_paper, axes_of, flatten, gap_extent, gap_key, lies_in, paper_point, paper_rect, parts_of_gap,
  type Rect, type Segment, type View
} from './view'

export interface DrawnEdge extends Segment {
  kind: 'thick' | 'hidden' | 'unplaced' | 'room'
  index: number
}
export interface DrawnDimension {
  text: string
  line: Segment
  extensions: Segment[]
  text_x: number
  text_y: number
  upright: boolean
  arrows_outside: boolean
}
export interface DrawnGap {
  gap: Gap
  key: string
  at: Rect
  tight: boolean
  /** Hatched: tight, unknown, or chosen. */
  marked: boolean
  label: Label | null
  parts: [number, number]
}
export interface Layout {
  width_px: number
  /** Where what is drawn begins and ends. */
  top_px: number
  bottom_px: number
  px_per_mm: number
  boxes: Array<{ index: number; at: Rect; known: boolean }>
  edges: DrawnEdge[]
  gaps: DrawnGap[]
  names: Array<Label & { index: number }>
  dimensions: DrawnDimension[]
  /** What found no place, in words. */
  also: string[]
  scale: { x: number; y: number; length_px: number; text: string }
}

const em_px = 13
const line_px = 16
const level_px = 25

/** `4 mm left`, `2.5 mm over`. */
export function gap_words(gap: Gap): string {
  const size = Math.round(Math.abs(gap.margin_mm) * 10) / 10
  return `${readable(size, 4)} mm ${gap.margin_mm >= 0 ? 'left' : 'over'}`
}
/** `5.5 % of the limit`: what the list of gaps is in the order of; empty where the limit is nothing. */
export function gap_share_words(gap: Gap): string {
  return gap.limit_mm === 0 ? '' : `${percent_words(Math.abs(gap.margin_mm / gap.limit_mm), 2)} of the limit`
}
/** `card length`, `memory height, nearest socket`. */
export function gap_name(gap: Pick<Gap, 'claim' | 'where'>): string {
  const name = gap.claim.slice(gap.claim.indexOf('.') + 1).replaceAll('-', ' ')
  return gap.where ? `${name}, ${gap.where}` : name
}
/** `card 321 ±2`. */
export function dimension_words(dimension: Dimension): string {
  const size = Math.round(Math.abs(dimension.to_mm - dimension.from_mm) * 10) / 10
  const around_it = dimension.plus_minus_mm > 0 ? ` ±${readable(dimension.plus_minus_mm)}` : ''
  return [dimension.text, `${readable(size, 4)}${around_it}`].filter(Boolean).join(' ')
}
export function is_tight_gap(gap: Gap): boolean {
  return is_tight(gap.verdict)
}

interface Line {
  words: string
  low: number
  high: number
  /** Of all that is drawn along it, the words too. */
  begins: number
  ends: number
  /** The thing's own place across. */
  near: number
  far: number
  level: number
  beyond: boolean
  text_beside: boolean
}

const within = (u: number, line: Line) => u > line.begins && u < line.ends && Math.abs(u - line.low) > 0.5 && Math.abs(u - line.high) > 0.5

function fits(line: Line, placed: readonly Line[]): boolean {
  return placed.every((other) => {
    if (other.beyond !== line.beyond) return true
    if (other.level === line.level) return line.begins > other.ends + 4 || other.begins > line.ends + 4
    const [outer, inner] = other.level > line.level ? [other, line] : [line, other]
    return !within(outer.low, inner) && !within(outer.high, inner)
  })
}

/** Levels and sides for the dimensions of one direction, shortest first; what fits nowhere is left. */
function place_lines(lines: Line[], middle: number): { placed: Line[]; left: Line[] } {
  const placed: Line[] = []
  const left: Line[] = []
  for (const line of [...lines].sort((a, b) => a.high - a.low - (b.high - b.low))) {
    const nearer_to_end = (line.near + line.far) / 2 > middle
    let found = false
    for (let level = 0; level < 3 && !found; level += 1)
      for (const beyond of [nearer_to_end, !nearer_to_end]) {
        const tried = { ...line, level, beyond }
        if (!fits(tried, placed)) continue
        placed.push(tried)
        found = true
        break
      }
    if (!found) left.push(line)
  }
  return { placed, left }
}

export interface LayoutOptions {
  view: View
  width_px: number
  most_height_px: number
  chosen: string | null
}

export function lay_out(scene: SceneJson, options: LayoutOptions): Layout {
  const { view, width_px, chosen } = options
  const flat = flatten(scene, view)
  const axes = axes_of[view]
  const extent = flat.extent
  const margin_x = Math.min(92, 2 * level_px + 30)
  const margin_y = 2 * level_px + 24
  const px_per_mm = Math.max(
    0.15,
    Math.min(
      (width_px - 2 * margin_x) / Math.max(1, extent.right - extent.left),
      (options.most_height_px - 2 * margin_y) / Math.max(1, extent.bottom - extent.top)
    )
  )
  const drawn_width = (extent.right - extent.left) * px_per_mm
  const shift_x = (width_px - drawn_width) / 2 - extent.left * px_per_mm
  const shift_y = margin_y - extent.top * px_per_mm
  const height_px = (extent.bottom - extent.top) * px_per_mm + 2 * margin_y
  const rect_px = (rect: Rect): Rect => ({
    left: rect.left * px_per_mm + shift_x, right: rect.right * px_per_mm + shift_x,
    top: rect.top * px_per_mm + shift_y, bottom: rect.bottom * px_per_mm + shift_y
  })
  const outline = rect_px(extent)
  const placer = new Placer({ left: 2, top: 2, right: width_px - 2, bottom: height_px })

  const boxes = flat.boxes.map(({ at, index, known }) => ({ index, at: rect_px(at), known }))
  const edges = flat.edges.map((edge): DrawnEdge => {
    const box = flat.boxes[edge.index]
    const kind = box?.box.use === 'bend' ? 'room' : !box?.known ? 'unplaced' : edge.hidden ? 'hidden' : 'thick'
    return {
      index: edge.index, kind,
      x1: edge.x1 * px_per_mm + shift_x, x2: edge.x2 * px_per_mm + shift_x,
      y1: edge.y1 * px_per_mm + shift_y, y2: edge.y2 * px_per_mm + shift_y
    }
  })
  edges.forEach((edge) => placer.keep_off(edge))

  const { dimensions, also } = dimensions_of()
  const gaps = gaps_of()
  const names = names_of()
  const heights = [
    outline.top, outline.bottom,
    ...dimensions.flatMap(({ line, upright, text_y }) => (upright ? [line.y1, line.y2] : [text_y - line_px, line.y1 + 6])),
    ...[...names, ...gaps.flatMap(({ label }) => label ?? [])].flatMap(({ room }) => [room.top, room.bottom])
  ]
  const lowest = Math.max(...heights)
  return {
    width_px, top_px: Math.min(...heights) - 4, bottom_px: lowest + 34, px_per_mm, boxes, edges, gaps, names, dimensions,
    also, scale: { x: outline.left, y: lowest + 22, length_px: 100 * px_per_mm, text: '100 mm' }
  }

  function dimensions_of(): { dimensions: DrawnDimension[]; also: string[] } {
    const out: DrawnDimension[] = []
    const left_over: string[] = []
    for (const across of [true, false]) {
      const axis = across ? axes.across : axes.up
      const lines = scene.dimensions.filter((each) => each.axis === axis).map((each) => line_of(each, across))
      const middle = across ? (outline.top + outline.bottom) / 2 : (outline.left + outline.right) / 2
      const { placed, left } = place_lines(lines, middle)
      out.push(...placed.map((line) => drawn(line, across)))
      left_over.push(...left.map(({ words }) => words))
    }
    return { dimensions: out, also: left_over }
  }

  function line_of(dimension: Dimension, across: boolean): Line {
    const shift = across ? shift_x : shift_y
    const u = (mm: number) => along_paper(mm, dimension.axis, view) * px_per_mm + shift
    const low = Math.min(u(dimension.from_mm), u(dimension.to_mm))
    const high = Math.max(u(dimension.from_mm), u(dimension.to_mm))
    const words = dimension_words(dimension)
    const text_px = text_width(words, em_px)
    const text_beside = high - low < text_px + 10
    const at = paper_point(dimension.at_mm, view)
    const v = across ? at.y * px_per_mm + shift_y : at.x * px_per_mm + shift_x
    let [near, far] = [v, v]
    for (const box of boxes) {
      const [a, b] = across ? [box.at.left, box.at.right] : [box.at.top, box.at.bottom]
      const [c, d] = across ? [box.at.top, box.at.bottom] : [box.at.left, box.at.right]
      if (Math.abs(a - low) < 1 && Math.abs(b - high) < 1 && c <= v + 1 && v <= d + 1) [near, far] = [c, d]
    }
    const tail = high - low < 24 ? 16 : 0
    return {
      words, low, high, near, far, level: 0, beyond: true, text_beside,
      begins: low - tail, ends: high + tail + (text_beside ? text_px + 6 : 0)
    }
  }

  function drawn(line: Line, across: boolean): DrawnDimension {
    const sign = line.beyond ? 1 : -1
    const [a, b] = across ? [outline.top, outline.bottom] : [outline.left, outline.right]
    const v = (line.beyond ? b : a) + sign * (line.level + 1) * level_px
    const from = (line.beyond ? line.far : line.near) + sign * 2
    const point = (u: number, w: number) => (across ? [u, w] : [w, u]) as [number, number]
    const segment = (u1: number, v1: number, u2: number, v2: number): Segment => {
      const [x1, y1] = point(u1, v1)
      const [x2, y2] = point(u2, v2)
      return { x1, y1, x2, y2 }
    }
    const extensions = [line.low, line.high].map((u) => segment(u, from, u, v + sign * 4))
    const whole = segment(line.begins, v, line.ends, v)
    extensions.forEach((each) => placer.keep_off(each))
    placer.guard(whole)
    const text_px = text_width(line.words, em_px)
    const u = line.text_beside ? line.ends - text_px / 2 : (line.low + line.high) / 2
    const [text_x, text_y] = across ? [u, v - 4] : [v - 4, u]
    const room = across
      ? { left: u - text_px / 2, right: u + text_px / 2, top: v - line_px, bottom: v }
      : { left: v - line_px, right: v, top: u - text_px / 2, bottom: u + text_px / 2 }
    placer.taken(room)
    return {
      text: line.words, line: whole, extensions, text_x, text_y, upright: !across,
      arrows_outside: line.high - line.low < 24
    }
  }

  function gaps_of(): DrawnGap[] {
    const shown = scene.gaps.filter((gap) => lies_in(gap.axis, view))
    const out = shown.map((gap): DrawnGap => {
      const key = gap_key(gap)
      const tight = is_tight_gap(gap)
      const marked = tight || gap.verdict === 'unknown' || key === chosen
      const at = rect_px(paper_rect(gap_extent(scene, gap), view))
      return { gap, key, at, tight, marked, label: null, parts: parts_of_gap(scene, gap) }
    })
    for (const each of out) {
      if (!each.marked) continue
      placer.taken(each.at)
    }
    for (const each of out) {
      if (!each.marked) continue
      const text = `${gap_name(each.gap)} ${gap_words(each.gap)}`
      each.label = placer.on_leader(text, borders_of(each.at), text_width(text, em_px), line_px)
      if (!each.label) also.push(text)
    }
    return out
  }

  // A leader begins at the edge of the hatch, where it does not cross its own mark.
  function borders_of({ left, top, right, bottom }: Rect): Array<[number, number]> {
    const x = (left + right) / 2
    const y = (top + bottom) / 2
    return [
      [x, bottom],
      [right, y],
      [left, y],
      [x, top]
    ]
  }

  function names_of(): Array<Label & { index: number }> {
    const out: Array<Label & { index: number }> = []
    const area = (rect: Rect) => (rect.right - rect.left) * (rect.bottom - rect.top)
    const by_size = [...boxes].sort((a, b) => area(a.at) - area(b.at))
    for (const { index, at, known } of by_size) {
      const box = scene.boxes[index]
      if (!box) continue
      const text = box.name + (known ? '' : ' ?')
      const width = text_width(text, em_px)
      const label = placer.inside(text, at, width, line_px) ?? leader_to(text, at, width)
      if (label) out.push({ ...label, index })
      else also.push(text)
    }
    return out
  }
  function leader_to(text: string, at: Rect, width: number): Label | null {
    const points: Array<[number, number]> = [
      [(at.left + at.right) / 2, (at.top + at.bottom) / 2],
      [at.right - 4, at.top + 6],
      [at.left + 4, at.bottom - 6]
    ]
    return placer.on_leader(text, points, width, line_px)
  }
}
