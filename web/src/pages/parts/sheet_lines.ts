// Which row and cell a problem speaks of: problems give lines and places of the file as it would be
// with the edits made.
import type { Trouble } from '../../lib/api'
import type { Table } from '../../lib/documents'
import type { RowDraft, SheetDraft } from './sheet_draft'

const height = (cells: readonly string[]) => 1 + cells.reduce((sum, text) => sum + (text.match(/\n/g)?.length ?? 0), 0)

/** A row of the table, or a new one of the draft. */
export type Source = { row: number } | { n: number }

const cells_with = (columns: readonly string[], cells: readonly string[], row: RowDraft) =>
  columns.map((name, i) => row.cells[name] ?? cells[i] ?? '')

/**
 * The lines at which rows begin once these were sent. Rows that are not written anew keep the blank
 * lines before them; a column that the file did not have makes all of them anew.
 */
export function lines_when_sent(table: Table, file_columns: number, sent: readonly RowDraft[]): Map<number, Source> {
  const by_line = new Map(sent.filter(({ line }) => line !== 0).map((row) => [row.line, row]))
  const anew = sent.some(({ cells }) => Object.keys(cells).some((name) => table.columns.indexOf(name) >= file_columns))
  const out = new Map<number, Source>()
  const head_end = 1 + height(table.columns.slice(0, file_columns))
  let at = head_end
  let end_before = head_end
  for (const [i, { line, cells }] of table.rows.entries()) {
    const row = by_line.get(line)
    const blank = line - end_before
    end_before = line + height(cells)
    if (row?.remove) continue
    if (!row && !anew) at += blank
    out.set(at, { row: i })
    at += height(row ? cells_with(table.columns, cells, row) : cells)
  }
  for (const { line, n } of sent) {
    if (line !== 0) continue
    out.set(at, { n })
    at += 1
  }
  return out
}

const written_length = (text: string) => [...(/[",;\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)].length

/** The column a problem speaks of: it names it first, or gives its place in the line; -1: the row as a whole. */
export function column_of(problem: Trouble, columns: readonly string[], cells: readonly string[]): number {
  const named = columns.indexOf(/^[a-z0-9_]+/.exec(problem.text)?.[0] ?? '')
  if (named >= 0) return named
  if (problem.column === undefined) return -1
  let from = 1
  for (const [i, text] of cells.entries()) {
    const to = from + written_length(text) + 1
    if (problem.column >= from && problem.column < to) return i
    from = to
  }
  return -1
}

export interface Placed {
  /** By place in the view: `${row},${column}`. */
  cells: Map<string, string>
  /** Of the draft, the rows a problem was found in: these wait. */
  wrong: Set<number>
  /** Problems in other tables, and those without a row. */
  others: Trouble[]
  /** Of problems in all; the first hundred are told. */
  count: number
}

/** Name of the table whose file a place names: `/home/x/catalog/gpu.csv`; empty: none. */
export function table_of_place(place: string): string {
  return /([^/\\]+)\.csv(?=$|:)/.exec(place)?.[1] ?? ''
}

/**
 * Puts every problem of this table at its cell. `row_of_n` gives the view's row of a new row;
 * `cells_of` the texts of a row as they would be.
 */
export function placed(
  problems: readonly Trouble[], table: Table, file_columns: number, sent: readonly RowDraft[],
  row_of_n: (n: number) => number, cells_of: (row: number) => readonly string[]
): Placed {
  const out: Placed = { cells: new Map(), wrong: new Set(), others: [], count: problems.length }
  const lines = lines_when_sent(table, file_columns, sent)
  const drafted = new Map(sent.filter(({ line }) => line !== 0).map((row) => [row.line, row.n]))
  for (const problem of problems) {
    const source = table_of_place(problem.place) === table.name ? lines.get(problem.line ?? -1) : undefined
    if (!source) {
      out.others.push(problem)
      continue
    }
    const row = 'row' in source ? source.row : row_of_n(source.n)
    const n = 'row' in source ? drafted.get(table.rows[source.row]?.line ?? -1) : source.n
    if (n !== undefined) out.wrong.add(n)
    const column = Math.max(0, column_of(problem, table.columns, cells_of(row)))
    const key = `${row},${column}`
    const before = out.cells.get(key)
    out.cells.set(key, before ? `${before} ${problem.text}` : problem.text)
  }
  return out
}

/**
 * Of a draft with problems, the rows that wait: those with one; where one stands in another table, all
 * that may have made it (removed, or going by another key).
 */
export function waiting_rows(draft: SheetDraft, found: Placed, key: readonly string[]): number[] {
  const elsewhere = found.others.length > 0
  return draft.rows
    .filter((row) => found.wrong.has(row.n) || (elsewhere && (row.remove || key.some((column) => column in row.cells))))
    .map(({ n }) => n)
}
