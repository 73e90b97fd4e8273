// Remembers what lies on the paper and finds room for words between it. The order of the calls decides
// who gets the better place; nothing is random. Lengths are pixels.
import type { Rect, Segment } from './view'

export interface Label {
  text: string
  /** As it lies on the paper. */
  room: Rect
  /** Turned to be read from the right. */
  upright: boolean
  /** From the thing to the words, where they do not stand on it. */
  leader: Segment | null
}

const inflated = (rect: Rect, by: number): Rect => ({
  left: rect.left - by, top: rect.top - by, right: rect.right + by, bottom: rect.bottom + by
})
export function overlap(a: Rect, b: Rect): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}
/** The line has a point inside the rectangle (clipping after Liang and Barsky, 1984). */
export function crosses(line: Segment, rect: Rect): boolean {
  let from = 0
  let to = 1
  const dx = line.x2 - line.x1
  const dy = line.y2 - line.y1
  for (const [p, q] of [
    [-dx, line.x1 - rect.left], [dx, rect.right - line.x1], [-dy, line.y1 - rect.top], [dy, rect.bottom - line.y1]
  ] as const) {
    if (p === 0) {
      if (q <= 0) return false
      continue
    }
    const at = q / p
    if (p < 0) from = Math.max(from, at)
    else to = Math.min(to, at)
    if (from >= to) return false
  }
  return true
}
function meet(a: Segment, b: Segment): boolean {
  const side = (s: Segment, x: number, y: number) => Math.sign((s.x2 - s.x1) * (y - s.y1) - (s.y2 - s.y1) * (x - s.x1))
  return (
    side(a, b.x1, b.y1) * side(a, b.x2, b.y2) < 0 && side(b, a.x1, a.y1) * side(b, a.x2, a.y2) < 0
  )
}

export class Placer {
  private readonly lines: Segment[] = []
  private readonly leaders: Segment[] = []
  private readonly texts: Rect[] = []

  constructor(private readonly field: Rect) {}

  /** A line no words may touch; leaders may cross it. */
  keep_off(line: Segment): void {
    this.lines.push(line)
  }
  /** Words, or a mark that must stay readable. */
  taken(rect: Rect): void {
    this.texts.push(rect)
  }
  /** A line that neither words nor leaders may touch. */
  guard(line: Segment): void {
    this.leaders.push(line)
  }

  private is_free(room: Rect): boolean {
    const { field } = this
    if (room.left < field.left || room.right > field.right || room.top < field.top || room.bottom > field.bottom)
      return false
    const wide = inflated(room, 2.5)
    return (
      !this.texts.some((text) => overlap(wide, text)) &&
      !this.lines.some((line) => crosses(line, wide)) &&
      !this.leaders.some((line) => crosses(line, wide))
    )
  }

  /** Room inside a rectangle, nearest to its upper left corner; level first, then turned. */
  inside(text: string, box: Rect, width: number, height: number): Label | null {
    for (const upright of [false, true]) {
      const w = upright ? height : width
      const h = upright ? width : height
      for (let top = box.top + 4; top + h <= box.bottom - 3; top += 4)
        for (let left = box.left + 5; left + w <= box.right - 4; left += 5) {
          const room = { left, top, right: left + w, bottom: top + h }
          if (!this.is_free(room)) continue
          this.texts.push(room)
          return { text, room, upright, leader: null }
        }
    }
    return null
  }

  /** Room on a leader from one of the points, the shortest leader first. */
  on_leader(
    text: string,
    from: ReadonlyArray<readonly [x: number, y: number]>,
    width: number,
    height: number
  ): Label | null {
    for (let reach = 16; reach <= 420; reach += 10)
      for (const [x, y] of from)
        for (let k = 0; k < 24; k += 1) {
          const label = this.tried(text, x, y, reach, (k * Math.PI) / 12 + 0.26, width, height)
          if (!label) continue
          this.texts.push(label.room)
          if (label.leader) this.leaders.push(label.leader)
          return label
        }
    return null
  }

  private tried(
    text: string, x: number, y: number, reach: number, turn: number, width: number, height: number
  ): Label | null {
    const end_x = x + reach * Math.cos(turn)
    const end_y = y + reach * Math.sin(turn)
    const left = end_x >= x ? end_x + 3 : end_x - 3 - width
    const room = { left, top: end_y - height / 2, right: left + width, bottom: end_y + height / 2 }
    if (!this.is_free(room)) return null
    const leader = { x1: x, y1: y, x2: end_x, y2: end_y }
    // What the point itself lies in (its own hatch) does not stand in the way.
    const holds_start = (rect: Rect) => overlap(rect, { left: x - 1, right: x + 1, top: y - 1, bottom: y + 1 })
    if (this.texts.some((other) => !holds_start(other) && crosses(leader, other))) return null
    if (this.leaders.some((other) => meet(leader, other))) return null
    return { text, room, upright: false, leader }
  }
}
