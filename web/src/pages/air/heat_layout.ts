// Where the places and flows of a heat path lie on paper: columns from the sources to the outside,
// bands as wide as their watts by one scale. Geometry alone, in pixels; the published sheet's rules.
import { fitting, round_step, text_width } from '../../chart/axis'
import type { Flow, PhysicsJson, Place } from '../../lib/json/physics'
import { readable } from '../../lib/numbers'

export type HeatPath = NonNullable<PhysicsJson['heat_path']>

export const bar_px = 11
const gap_px = 9
const text_px = 13
const line_px = 16

export interface HeatNode {
  place: Place
  /** Where a flow that spans several columns passes one. */
  passing: boolean
  column: number
  in_w: number
  out_w: number
  left_px: number
  top_px: number
  label: string[]
  label_px: number
}
export interface HeatBand {
  flow: Flow
  watts: number
  from: HeatNode
  to: HeatNode
  /** Its upper edge at both ends. */
  from_px: number
  to_px: number
}
export interface HeatLayout {
  nodes: HeatNode[]
  bands: HeatBand[]
  columns: number
  px_per_w: number
  height_px: number
  /** The scale bar. */
  scale_w: number
}

export const through_w = (node: HeatNode) => Math.max(node.in_w, node.out_w)
const height_of = (node: HeatNode, px_per_w: number) => node.label_px + through_w(node) * px_per_w

/** Watts a body or a room takes up but does not give off; 0 within half a per cent. */
export function unaccounted_w(node: HeatNode): number {
  if (node.passing || node.place.kind === 'source' || node.place.kind === 'outside') return 0
  const rest = Math.abs(node.in_w - node.out_w)
  return rest > 0.005 * through_w(node) ? rest : 0
}

/** The longest way from a source; null when flows run in a circle. */
function columns_of(ids: readonly string[], flows: readonly Flow[]): Map<string, number> | null {
  const column = new Map(ids.map((id) => [id, 0]))
  for (let round = 0; round <= ids.length; round += 1) {
    let moved = false
    for (const { from, to } of flows) {
      const least = (column.get(from) ?? 0) + 1
      if ((column.get(to) ?? 0) >= least) continue
      column.set(to, least)
      moved = true
    }
    if (!moved) return column
  }
  return null
}

function wrapped(text: string, width_px: number): string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word
    if (lines.length > 0 && text_width(longer, text_px) <= width_px) lines[lines.length - 1] = longer
    else lines.push(word)
  }
  if (lines.length > 2) lines.splice(1, lines.length - 1, `${lines[1]}\u2026`)
  return lines.map((line) => fitting(line, width_px, text_px))
}
function label(node: HeatNode, width_px: number): void {
  const temp = node.place.temp_c === undefined ? '' : `${readable(node.place.temp_c)} °C`
  const watts = `${readable(through_w(node))} W`
  const both = [temp, watts].filter(Boolean).join(', ')
  const numbers = text_width(both, text_px) <= width_px ? [both] : [temp, watts]
  node.label = [...wrapped(node.place.name, width_px), ...numbers.filter(Boolean)]
  node.label_px = line_px * node.label.length + 3
}

/**
 * Tops for blocks of these sizes, near to where they want to be, in the given order, with the gap
 * between them, all between 0 and the height (least squares: neighbours that overlap are pooled).
 */
export function stacked(wanted: readonly number[], sizes: readonly number[], height_px: number): number[] {
  const offsets: number[] = []
  let offset = 0
  for (const size of sizes) {
    offsets.push(offset)
    offset += size + gap_px
  }
  const room = height_px - (offset - gap_px)
  const pools: Array<{ sum: number; count: number }> = []
  wanted.forEach((want, i) => {
    let next = { sum: want - (offsets[i] ?? 0), count: 1 }
    for (let last = pools.at(-1); last && last.sum / last.count > next.sum / next.count; last = pools.at(-1)) {
      next = { sum: next.sum + last.sum, count: next.count + last.count }
      pools.pop()
    }
    pools.push(next)
  })
  const starts = pools.flatMap(({ sum, count }) => new Array<number>(count).fill(sum / count))
  return starts.map((start, i) => Math.max(0, Math.min(start, room)) + (offsets[i] ?? 0))
}

/** Null where it cannot be drawn: nothing flows, or flows run in a circle. */
export function heat_layout(path: HeatPath, width_px: number): HeatLayout | null {
  const flows = path.flows.filter(({ power_w }) => power_w !== undefined && power_w > 0)
  const used = path.places.filter(({ id }) => flows.some(({ from, to }) => from === id || to === id))
  const known = new Set(used.map(({ id }) => id))
  if (flows.length === 0 || flows.some(({ from, to }) => !known.has(from) || !known.has(to))) return null
  const column = columns_of([...known], flows)
  if (!column) return null
  const columns = Math.max(...column.values()) + 1
  const nodes = used.map(
    (place): HeatNode => ({
      place, passing: false, in_w: 0, out_w: 0, left_px: 0, top_px: 0, label: [], label_px: 0,
      column: place.kind === 'outside' && !flows.some(({ from }) => from === place.id) ? columns - 1 : (column.get(place.id) ?? 0)
    })
  )
  const by_id = new Map(nodes.map((node) => [node.place.id, node]))
  const bands: HeatBand[] = []
  for (const flow of flows) {
    const watts = flow.power_w ?? 0
    const end = by_id.get(flow.to)
    let from = by_id.get(flow.from)
    if (!from || !end) continue
    from.out_w += watts
    end.in_w += watts
    const place = from.place
    // From column to column only: a passing point in each column that a flow crosses.
    for (let at = from.column + 1; at < end.column; at += 1) {
      const point: HeatNode = {
        place, passing: true, column: at, in_w: watts, out_w: watts, left_px: 0, top_px: 0, label: [], label_px: 0
      }
      nodes.push(point)
      bands.push({ flow, watts, from, to: point, from_px: 0, to_px: 0 })
      from = point
    }
    bands.push({ flow, watts, from, to: end, from_px: 0, to_px: 0 })
  }
  const pitch_px = width_px / columns
  const inside = Array.from({ length: columns }, (_, at) => nodes.filter((node) => node.column === at))
  for (const node of nodes) {
    node.left_px = pitch_px * node.column
    if (!node.passing) label(node, pitch_px - 6)
  }
  const most_w = Math.max(...inside.map((list) => list.reduce((sum, node) => sum + through_w(node), 0)))
  const px_per_w = (width_px < 520 ? 150 : 210) / most_w
  const full = (list: readonly HeatNode[]) => list.reduce((sum, node) => sum + height_of(node, px_per_w) + gap_px, -gap_px)
  const height_px = Math.max(...inside.map(full))
  place_nodes(inside, bands, px_per_w, height_px)
  place_bands(bands, px_per_w)
  return { nodes, bands, columns, px_per_w, height_px, scale_w: round_step(26 / px_per_w) }
}

function place_nodes(inside: HeatNode[][], bands: readonly HeatBand[], px_per_w: number, height_px: number): void {
  const middle = (node: HeatNode) => node.top_px + (through_w(node) * px_per_w) / 2
  const put = (list: HeatNode[], middles: readonly number[]) => {
    const tops = list.map((node, i) => (middles[i] ?? 0) - (through_w(node) * px_per_w) / 2 - node.label_px)
    stacked(tops, list.map((node) => height_of(node, px_per_w)), height_px).forEach((top, i) => {
      const node = list[i]
      if (node) node.top_px = top + node.label_px
    })
  }
  // The mean height, by watts, of what feeds a node (or what it feeds).
  const settle = (at: number, from_before: boolean) => {
    const list = inside[at] ?? []
    const wanted = new Map(
      list.map((node) => {
        const beside = bands.filter((band) => (from_before ? band.to : band.from) === node)
        const watts = beside.reduce((sum, band) => sum + band.watts, 0)
        const sum = beside.reduce((all, band) => all + band.watts * middle(from_before ? band.from : band.to), 0)
        return [node, watts > 0 ? sum / watts : middle(node)]
      })
    )
    list.sort((a, b) => a.top_px - b.top_px).sort((a, b) => (wanted.get(a) ?? 0) - (wanted.get(b) ?? 0))
    put(list, list.map((node) => wanted.get(node) ?? 0))
  }
  put(inside[0] ?? [], [])
  for (let round = 0; round < 3; round += 1) {
    for (let at = 1; at < inside.length; at += 1) settle(at, true)
    for (let at = inside.length - 2; at >= 0; at -= 1) settle(at, false)
  }
  for (let at = 1; at < inside.length; at += 1) settle(at, true)
}

/** At each node the bands lie side by side in the order of their other ends. */
function place_bands(bands: readonly HeatBand[], px_per_w: number): void {
  for (const at_from of [true, false]) {
    const other = (band: HeatBand) => (at_from ? band.to : band.from)
    const height = (band: HeatBand) => other(band).top_px + (through_w(other(band)) * px_per_w) / 2
    const used = new Map<HeatNode, number>()
    for (const band of [...bands].sort((a, b) => height(a) - height(b))) {
      const node = at_from ? band.from : band.to
      const taken = used.get(node) ?? 0
      if (at_from) band.from_px = node.top_px + taken
      else band.to_px = node.top_px + taken
      used.set(node, taken + band.watts * px_per_w)
    }
  }
}

/** One flow's pieces as an area, and its two edges. */
export function band_paths(pieces: readonly HeatBand[], px_per_w: number): { area: string; edges: string } {
  const width = (pieces[0]?.watts ?? 0) * px_per_w
  const edge = (below: number) =>
    pieces.flatMap((piece) => [
      [piece.from.left_px + bar_px, piece.from_px + below] as const,
      [piece.to.left_px, piece.to_px + below] as const
    ])
  const data = (points: ReadonlyArray<readonly [number, number]>) =>
    points
      .map(([x, y], i) => {
        const before = points[i - 1]
        if (!before) return `${short(x)} ${short(y)}`
        // Curves from column to column, straight past the bars.
        if (i % 2 === 0) return `L${short(x)} ${short(y)}`
        const half = short((before[0] + x) / 2)
        return `C${half} ${short(before[1])} ${half} ${short(y)} ${short(x)} ${short(y)}`
      })
      .join('')
  const upper = edge(0)
  const lower = edge(width)
  return {
    area: `M${data(upper)}L${data([...lower].reverse())}Z`,
    edges: `M${data(upper)}M${data(lower)}`
  }
}
const short = (value: number) => Math.round(value * 10) / 10
