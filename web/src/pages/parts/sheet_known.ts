// Cells that were found wrong before: of a row that cannot be read, the service tells only what keeps it from
// being read. What it told of the row's other cells is remembered until they say something else.
import type { Placed } from './sheet_lines'
import { draft_at, text_at, type SheetView } from './sheet_draft'

export interface KnownWrong {
  /** The row of the draft. */
  n: number
  column: number
  /** What the cell said. */
  text: string
  says: string
}

const place_of = (row: number, column: number) => `${row},${column}`

/** Row of the view that this row of the draft is shown in; -1: none. */
function row_of(view: SheetView, n: number): number {
  for (const [row, own] of view.over) if (own.n === n) return row
  const at = view.added.findIndex((row) => row.n === n)
  return at < 0 ? -1 : view.table.rows.length + at
}

/** What the last check told of cells that were written in. */
export function known_wrong(found: Placed, view: SheetView): KnownWrong[] {
  const out: KnownWrong[] = []
  for (const [place, says] of found.cells) {
    const [row = 0, column = 0] = place.split(',').map(Number)
    const own = draft_at(view, row)
    if (own && !own.remove) out.push({ n: own.n, column, text: text_at(view, row, column), says })
  }
  return out
}

/**
 * What was found, and of rows that still have a problem the cells known to be wrong that say the same as then.
 * A row without a problem was read to its end: nothing is remembered of it.
 */
export function with_known(found: Placed, known: readonly KnownWrong[], view: SheetView): Placed {
  const kept = known.filter(({ n, column, text }) => {
    const row = row_of(view, n)
    return row >= 0 && found.wrong.has(n) && text_at(view, row, column) === text && !found.cells.has(place_of(row, column))
  })
  if (kept.length === 0) return found
  const cells = new Map(found.cells)
  for (const { n, column, says } of kept) cells.set(place_of(row_of(view, n), column), says)
  return { ...found, cells, count: found.count + kept.length }
}
