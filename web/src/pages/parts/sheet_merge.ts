// A draft carried over to the table as it stands now: after its rows were written, and after somebody
// else changed the file.
import type { Table } from '../../lib/documents'
import { row_key } from './rows'
import type { RowDraft, SheetDraft } from './sheet_draft'

const same = (a: readonly string[], b: readonly string[]) => a.length === b.length && a.every((text, i) => text === b[i])

/** A row over the file's row as it is now; null where it says nothing else any more. */
function laid_over(row: RowDraft, line: number, cells: readonly string[], columns: readonly string[]): RowDraft | null {
  if (row.remove) return { ...row, line, before: cells }
  const left = Object.entries(row.cells).filter(([name, text]) => text !== (cells[columns.indexOf(name)] ?? ''))
  if (left.length === 0) return null
  const { theirs = {}, ...rest } = row
  const open = left.map(([name]) => name).filter((name) => name in theirs)
  return with_theirs({ ...rest, line, before: cells, cells: Object.fromEntries(left) }, open, cells, columns)
}

/** Cells that both wrote, with what the file says in them now. */
function with_theirs(row: RowDraft, names: readonly string[], cells: readonly string[], columns: readonly string[]): RowDraft {
  if (names.length === 0) return row
  return { ...row, theirs: Object.fromEntries(names.map((name) => [name, cells[columns.indexOf(name)] ?? ''])) }
}

/**
 * After `sent` was written and the table read again: what was written meanwhile stays a draft, over
 * the rows as they are now. Null: the table is not the one these edits make.
 */
export function after_written(draft: SheetDraft, sent: readonly RowDraft[], old_table: Table, now: Table): SheetDraft | null {
  const removed = new Set(sent.filter(({ remove }) => remove).map(({ line }) => line))
  const stay = old_table.rows.filter(({ line }) => !removed.has(line))
  const new_rows = sent.filter(({ line }) => line === 0)
  if (now.rows.length !== stay.length + new_rows.length) return null
  const index_of = new Map(stay.map(({ line }, i) => [line, i]))
  const index_of_new = new Map(new_rows.map(({ n }, i) => [n, stay.length + i]))
  const rows: RowDraft[] = []
  for (const row of draft.rows) {
    const at = row.line === 0 ? index_of_new.get(row.n) : index_of.get(row.line)
    const there = at === undefined ? undefined : now.rows[at]
    if (row.gone || (row.line === 0 && at === undefined)) rows.push(row)
    else if (there) {
      const over = laid_over(row, there.line, there.cells, now.columns)
      if (over) rows.push(over)
    }
  }
  return { rows, next: draft.next }
}

/**
 * After somebody else changed the file. Cells that both wrote are kept both ways, to be chosen from;
 * rows that they removed wait for a choice as well.
 */
export function rebased(draft: SheetDraft, old_columns: readonly string[], now: Table, places: readonly number[]): SheetDraft {
  // Columns may have moved: everything is compared in the order of the table as it is now.
  const moved = now.columns.map((name) => old_columns.indexOf(name))
  const by_key = new Map<string, number[]>()
  for (const [i, { cells }] of now.rows.entries()) {
    const key = row_key(cells, places)
    by_key.set(key, [...(by_key.get(key) ?? []), i])
  }
  const taken = new Set<number>()
  const rows: RowDraft[] = []
  for (const row of draft.rows) {
    if (row.line === 0 || row.gone) {
      rows.push(row)
      continue
    }
    const before = moved.map((at) => row.before[at] ?? '')
    const there = (by_key.get(row_key(before, places)) ?? []).filter((i) => !taken.has(i))
    const at = there.find((i) => same(now.rows[i]?.cells ?? [], before)) ?? there[0]
    const file = at === undefined ? undefined : now.rows[at]
    if (at === undefined || !file) {
      if (!row.remove) rows.push({ ...row, before, gone: true })
      continue
    }
    taken.add(at)
    const over = laid_over(row, file.line, file.cells, now.columns)
    if (!over) continue
    const clash = Object.keys(over.cells).filter((name) => {
      const column = now.columns.indexOf(name)
      return name in (over.theirs ?? {}) || (file.cells[column] ?? '') !== (before[column] ?? '')
    })
    rows.push(row.remove ? over : with_theirs(over, clash, file.cells, now.columns))
  }
  return { rows, next: draft.next }
}

/** Mine goes on top of theirs, in this one cell. */
export function keep_mine(draft: SheetDraft, n: number, column: string): SheetDraft {
  return {
    ...draft,
    rows: draft.rows.map((row) => {
      if (row.n !== n || !row.theirs) return row
      const { theirs, ...rest } = row
      const left = Object.entries(theirs).filter(([name]) => name !== column)
      return left.length > 0 ? { ...rest, theirs: Object.fromEntries(left) } : rest
    })
  }
}
/** Theirs stays; mine is given up, in this one cell. */
export function take_theirs(draft: SheetDraft, n: number, column: string): SheetDraft {
  const mine = keep_mine(draft, n, column)
  return {
    ...mine,
    rows: mine.rows.flatMap((row) => {
      if (row.n !== n) return [row]
      const cells = Object.fromEntries(Object.entries(row.cells).filter(([name]) => name !== column))
      return Object.keys(cells).length > 0 ? [{ ...row, cells }] : []
    })
  }
}
/** A row that somebody else removed is written once more, as a new one. */
export function add_again(draft: SheetDraft, n: number, columns: readonly string[]): SheetDraft {
  return {
    ...draft,
    rows: draft.rows.map((row) => {
      if (row.n !== n || !row.gone) return row
      const cells = Object.fromEntries(
        columns.flatMap((name, i): Array<[string, string]> => {
          const text = row.cells[name] ?? row.before[i] ?? ''
          return text === '' ? [] : [[name, text]]
        })
      )
      return { line: 0, n, before: [], cells }
    })
  }
}
