// Rows of a table by the names they go by, and looking for text in them.
import type { CellAt } from '../../shell/grid_model'

export interface FileRow {
  line: number
  cells: readonly string[]
}

/** A number as the catalog writes it in a row's key: `012.50` is `12.5`. */
function plain(text: string): string {
  return /^-?\d+(\.\d+)?$/.test(text) ? String(Number(text)) : text
}

/** Where the schema's key columns stand in this file. */
export function key_places(columns: readonly string[], key: readonly string[]): number[] {
  return key.map((name) => columns.indexOf(name)).filter((at) => at >= 0)
}
/** `white-case/top`. */
export function row_key(cells: readonly string[], places: readonly number[]): string {
  return places.map((at) => cells[at] ?? '').join('/')
}

/**
 * The row of that key; else the first one that begins with it (a part's id finds the first of what
 * belongs to it); -1.
 */
export function find_row(rows: readonly FileRow[], places: readonly number[], key: string): number {
  const pieces = key.split('/').map(plain)
  const first = places[0] ?? 0
  let begins = -1
  for (const [i, { cells }] of rows.entries()) {
    if (plain(cells[first] ?? '') !== pieces[0] && cells[first] !== key) continue
    if (begins < 0) begins = i
    if (row_key(cells, places) === key) return i
    if (pieces.length === places.length && pieces.every((piece, k) => plain(cells[places[k] ?? 0] ?? '') === piece)) return i
  }
  return begins
}

/**
 * The next cell that contains the text, small and capital letters alike, going row by row from
 * behind `from` (or before it, backwards) and around the end; null when no cell does.
 */
export function find_text(
  text: string, rows: number, columns: number, text_of: (row: number, column: number) => string, from: CellAt, back = false
): CellAt | null {
  const wanted = text.toLocaleLowerCase()
  if (wanted === '' || rows === 0) return null
  for (let step = 1; step <= rows; step += 1) {
    const row = (((from.row + (back ? -step : step)) % rows) + rows) % rows
    for (let column = 0; column < columns; column += 1)
      if (text_of(row, column).toLocaleLowerCase().includes(wanted)) return { row, column }
  }
  return null
}

/**
 * What a cell may be found by: what it says and, where it names a row of another table, that one's name in a line of
 * its own. In: `name_of` gives it, empty where the cell names nothing.
 */
export function findable(text: string, name: string): string {
  return name === '' || name === text ? text : `${text}\n${name}`
}
