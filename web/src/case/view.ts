// A scene seen from one side: its boxes flat on paper, the seen and the hidden part of every edge, and
// where a clearance lies between its two parts. Lengths are millimetres of the scene; y runs down on
// paper. Each view is a true one, none a mirror image: the scene's y runs towards the viewer of the
// side section, so it runs down in the view from above and to the left in the view from the front.
import type { Box, Gap } from '../lib/json/common'
import type { SceneJson } from '../lib/json/scene'

export type View = 'side' | 'top' | 'front'
export const views: readonly View[] = ['side', 'top', 'front']
export const view_names: Readonly<Record<View, string>> = {
  side: 'Side section, rear left',
  top: 'Top view, rear left',
  front: 'Front view, side panel left'
}
export type AxisName = 'x' | 'y' | 'z'
const index_of: Readonly<Record<AxisName, 0 | 1 | 2>> = { x: 0, y: 1, z: 2 }

interface ViewAxes {
  across: AxisName
  up: AxisName
  depth: AxisName
  across_sign: 1 | -1
  /** 1: what is greater lies lower on paper. */
  down_sign: 1 | -1
}
export const axes_of: Readonly<Record<View, ViewAxes>> = {
  side: { across: 'x', up: 'z', depth: 'y', across_sign: 1, down_sign: -1 },
  top: { across: 'x', up: 'y', depth: 'z', across_sign: 1, down_sign: 1 },
  front: { across: 'y', up: 'z', depth: 'x', across_sign: -1, down_sign: -1 }
}
export function lies_in(axis: AxisName, view: View): boolean {
  return axes_of[view].depth !== axis
}
/** The view that shows a clearance along this axis, the present one if it does. */
export function view_for(axis: AxisName, present: View): View {
  if (lies_in(axis, present)) return present
  return axis === 'y' ? 'front' : 'side'
}

export interface Rect {
  left: number
  top: number
  right: number
  bottom: number
}
export interface Segment {
  x1: number
  y1: number
  x2: number
  y2: number
}

const order = (a: number, b: number): [number, number] => (a <= b ? [a, b] : [b, a])

/** Millimetres of paper at scale 1, from the scene's origin. */
export function paper_rect(extent: Record<AxisName, readonly [number, number]>, view: View): Rect {
  const { across, up, across_sign, down_sign } = axes_of[view]
  const [left, right] = order(extent[across][0] * across_sign, extent[across][1] * across_sign)
  const [top, bottom] = order(extent[up][0] * down_sign, extent[up][1] * down_sign)
  return { left, top, right, bottom }
}
export function paper_point(at_mm: readonly [number, number, number], view: View): { x: number; y: number } {
  const { across, up, across_sign, down_sign } = axes_of[view]
  return { x: at_mm[index_of[across]] * across_sign, y: at_mm[index_of[up]] * down_sign }
}
/** Where a value along an axis of the paper lies on it. */
export function along_paper(value_mm: number, axis: AxisName, view: View): number {
  const { across, across_sign, down_sign } = axes_of[view]
  return axis === across ? value_mm * across_sign : value_mm * down_sign
}

export interface FlatBox {
  box: Box
  index: number
  at: Rect
  /** Place and size on the paper's two axes are known. */
  known: boolean
  /** A body: it hides what lies behind it. */
  hides: boolean
}
export interface EdgePiece extends Segment {
  index: number
  hidden: boolean
}
export interface Flat {
  boxes: FlatBox[]
  edges: EdgePiece[]
  extent: Rect
}

export function is_known(box: Box, axes: readonly AxisName[]): boolean {
  return axes.every((axis) => box.placed[index_of[axis]] && box.sized[index_of[axis]])
}

const same_mm = 0.5
const border_mm = 0.02

type Interval = [low: number, high: number]

// The part of an upright or level edge that a rectangle covers. On its own border it is seen.
function covered(edge: Segment, by: Rect): Interval | null {
  const level = edge.y1 === edge.y2
  const at = level ? edge.y1 : edge.x1
  const [low, high] = level ? [by.top, by.bottom] : [by.left, by.right]
  if (at <= low + border_mm || at >= high - border_mm) return null
  const [from, to] = level ? [edge.x1, edge.x2] : [edge.y1, edge.y2]
  const a = Math.max(from, level ? by.left : by.top)
  const b = Math.min(to, level ? by.right : by.bottom)
  return b > a ? [a, b] : null
}

function pieces(edge: Segment, index: number, hidden: Interval[]): EdgePiece[] {
  const level = edge.y1 === edge.y2
  const end = level ? edge.x2 : edge.y2
  const out: EdgePiece[] = []
  const put = (from: number, to: number, is_hidden: boolean) => {
    if (to - from < 0.05) return
    const line = level ? { x1: from, y1: edge.y1, x2: to, y2: edge.y1 } : { x1: edge.x1, y1: from, x2: edge.x1, y2: to }
    out.push({ ...line, index, hidden: is_hidden })
  }
  let at = level ? edge.x1 : edge.y1
  for (const [low, high] of hidden.sort((a, b) => a[0] - b[0])) {
    if (low > at) put(at, low, false)
    if (high > at) put(Math.max(at, low), high, true)
    at = Math.max(at, high)
  }
  put(at, end, false)
  return out
}

export function edges_of({ left, top, right, bottom }: Rect): Segment[] {
  return [
    { x1: left, y1: top, x2: right, y2: top },
    { x1: left, y1: bottom, x2: right, y2: bottom },
    { x1: left, y1: top, x2: left, y2: bottom },
    { x1: right, y1: top, x2: right, y2: bottom }
  ]
}
export function around(rects: readonly Rect[]): Rect {
  return {
    left: Math.min(...rects.map((rect) => rect.left)),
    top: Math.min(...rects.map((rect) => rect.top)),
    right: Math.max(...rects.map((rect) => rect.right)),
    bottom: Math.max(...rects.map((rect) => rect.bottom))
  }
}

export function flatten(scene: SceneJson, view: View): Flat {
  const { across, up, depth } = axes_of[view]
  const boxes = scene.boxes.map((box, index): FlatBox => {
    const known = is_known(box, [across, up])
    const body = box.use !== 'outline' && box.use !== 'bend'
    return { box, index, at: paper_rect(box, view), known, hides: body && known }
  })
  const middle = ({ box }: FlatBox) => box[depth][0] + box[depth][1]
  const edges = boxes.flatMap((flat) =>
    edges_of(flat.at).flatMap((edge) => {
      const hidden = boxes
        .filter((other) => other.hides && other.index !== flat.index && flat.box.use !== 'outline')
        .filter((other) => middle(other) > middle(flat) + same_mm)
        .map((other) => covered(edge, other.at))
        .filter((interval): interval is Interval => interval !== null)
      return pieces(edge, flat.index, hidden)
    })
  )
  const gaps = scene.gaps.filter((gap) => lies_in(gap.axis, view)).map((gap) => paper_rect(gap_extent(scene, gap), view))
  const rects = [...boxes.map(({ at }) => at), ...gaps]
  return { boxes, edges, extent: rects.length > 0 ? around(rects) : { left: 0, top: 0, right: 1, bottom: 1 } }
}

/** Names a clearance among those of a scene. */
export function gap_key(gap: Pick<Gap, 'claim' | 'where'>): string {
  return `${gap.claim}|${gap.where}`
}

const end_tolerance_mm = 1.5

/** The boxes between which a clearance lies: indexes; -1 where no box ends there. */
export function parts_of_gap(scene: SceneJson, gap: Gap): [from: number, to: number] {
  const others = (['x', 'y', 'z'] as const).filter((axis) => axis !== gap.axis)
  const beside = (box: Box) =>
    others.every((axis) => {
      const at = gap.at_mm[index_of[axis]]
      return at >= box[axis][0] - 0.5 && at <= box[axis][1] + 0.5
    })
  const nearest = (edge_of: (box: Box) => number, at_mm: number, not: number) => {
    let best = -1
    let least = end_tolerance_mm
    for (const [i, box] of scene.boxes.entries()) {
      const off = Math.abs(edge_of(box) - at_mm)
      if (i !== not && beside(box) && off < least) {
        best = i
        least = off
      }
    }
    return best
  }
  const low_end = (box: Box) => (box.use === 'outline' ? box[gap.axis][1] : box[gap.axis][0])
  const from = nearest((box) => box[gap.axis][1], gap.from_mm, -1)
  return [from, nearest(low_end, gap.to_mm, from)]
}

/** The clearance as a box: from part to part along its axis, across as wide as both parts are. */
export function gap_extent(scene: SceneJson, gap: Gap): Record<AxisName, [number, number]> {
  const parts = parts_of_gap(scene, gap).flatMap((i) => scene.boxes[i] ?? [])
  const bodies = parts.filter((box) => box.use !== 'outline')
  const out: Record<AxisName, [number, number]> = { x: [0, 0], y: [0, 0], z: [0, 0] }
  for (const axis of ['x', 'y', 'z'] as const) {
    const at = gap.at_mm[index_of[axis]]
    if (axis === gap.axis) out[axis] = order(gap.from_mm, gap.to_mm)
    else {
      const low = Math.max(...bodies.map((box) => box[axis][0]))
      const high = Math.min(...bodies.map((box) => box[axis][1]))
      out[axis] = bodies.length > 0 && high - low > 1 ? [low, high] : [at - 10, at + 10]
    }
  }
  return out
}

export interface Angle {
  /** About the upright axis: 0 side, 90 front. */
  turn_deg: number
  /** 90: from above. */
  tilt_deg: number
}
export const angle_of: Readonly<Record<View, Angle>> = {
  side: { turn_deg: 0, tilt_deg: 0 },
  top: { turn_deg: 0, tilt_deg: 90 },
  front: { turn_deg: 90, tilt_deg: 0 }
}
/** The way from the scene to the eye, along x, y and z. */
export function eye_of({ turn_deg, tilt_deg }: Angle): Record<AxisName, number> {
  const turn = (turn_deg * Math.PI) / 180
  const tilt = (tilt_deg * Math.PI) / 180
  return { x: Math.sin(turn) * Math.cos(tilt), y: Math.cos(turn) * Math.cos(tilt), z: Math.sin(tilt) }
}
/** The drawing that shows nearly what is seen from there. */
export function nearest_view(angle: Angle): View {
  const eye = eye_of(angle)
  return [...views].sort((a, b) => Math.abs(eye[axes_of[b].depth]) - Math.abs(eye[axes_of[a].depth]))[0] ?? 'side'
}
