// What somebody wrote into a table and the file does not have yet: built from changes of the grid,
// shown over the file's rows, sent as edits.
import type { RowEdit, Table } from '../../lib/documents'
import { this_tab } from '../../lib/tab'
import type { CellChange } from '../../shell/grid_model'

export interface RowDraft {
  /** Of the row in the file; 0: a new row. */
  line: number
  /** Names it in this draft. */
  n: number
  /** Cells of the file's row when it was first written into; none for a new row. */
  before: readonly string[]
  /** What it is to say, by column. */
  cells: Readonly<Record<string, string>>
  remove?: boolean
  /** What somebody else wrote into the same cells meanwhile: to be chosen from. */
  theirs?: Readonly<Record<string, string>>
  /** Somebody else removed the row meanwhile. */
  gone?: boolean
}
export interface SheetDraft {
  rows: readonly RowDraft[]
  /** Names the next one. */
  next: number
}
export const no_draft: SheetDraft = { rows: [], next: 1 }

export const is_empty = (draft: SheetDraft) => draft.rows.length === 0
/** May be sent: nothing has to be chosen first. */
export const is_settled = (row: RowDraft) => row.gone !== true && row.theirs === undefined

/** The file's rows with the draft over them, the new rows behind them, and one empty row to write in. */
export interface SheetView {
  table: Table
  draft: SheetDraft
  /** By index of the file's row. */
  over: ReadonlyMap<number, RowDraft>
  added: readonly RowDraft[]
  rows: number
  places: ReadonlyMap<string, number>
}

/** Index of each line that begins a row. */
export function lines_of(table: Table): Map<number, number> {
  return new Map(table.rows.map(({ line }, i) => [line, i]))
}

export function view_of(table: Table, draft: SheetDraft, lines: ReadonlyMap<number, number>): SheetView {
  const over = new Map<number, RowDraft>()
  const added: RowDraft[] = []
  for (const row of draft.rows) {
    if (row.gone) continue
    const at = lines.get(row.line)
    if (row.line === 0) added.push(row)
    else if (at !== undefined) over.set(at, row)
  }
  return {
    table, draft, over, added,
    rows: table.rows.length + added.length + 1,
    places: new Map(table.columns.map((name, i) => [name, i]))
  }
}

/** The draft's own row at this place; nothing for a row as the file has it, and for the empty one. */
export function draft_at(view: SheetView, row: number): RowDraft | undefined {
  return view.over.get(row) ?? view.added[row - view.table.rows.length]
}
export function text_at(view: SheetView, row: number, column: number): string {
  const name = view.table.columns[column] ?? ''
  return draft_at(view, row)?.cells[name] ?? view.table.rows[row]?.cells[column] ?? ''
}
export function cells_at(view: SheetView, row: number): string[] {
  return view.table.columns.map((_, column) => text_at(view, row, column))
}
/** `37`; a new row has no line yet. */
export function row_name(view: SheetView, row: number): string {
  return String(view.table.rows[row]?.line ?? (row < view.rows - 1 ? 'new' : '+'))
}

/** A row's cells with some written over; those that say what the file says are no change. */
function over_written(row: RowDraft, changes: ReadonlyMap<string, string>, places: ReadonlyMap<string, number>): RowDraft | null {
  const said = Object.entries({ ...row.cells, ...Object.fromEntries(changes) })
  const cells = Object.fromEntries(said.filter(([name, text]) => text !== (row.before[places.get(name) ?? -1] ?? '')))
  const { theirs, ...rest } = row
  const open = Object.entries(theirs ?? {}).filter(([name]) => name in cells && !changes.has(name))
  const out: RowDraft = { ...rest, cells, ...(open.length > 0 ? { theirs: Object.fromEntries(open) } : {}) }
  if (row.line !== 0 && out.remove) delete out.remove
  return Object.keys(cells).length === 0 ? null : out
}

/** Changes of the grid; those in rows behind the last one make new rows. */
export function with_changes(view: SheetView, changes: readonly CellChange[]): SheetDraft {
  const by_row = new Map<number, Map<string, string>>()
  for (const { row, column, text } of changes) {
    const name = view.table.columns[column]
    if (name === undefined) continue
    const cells = by_row.get(row) ?? new Map<string, string>()
    cells.set(name, one_line(text))
    by_row.set(row, cells)
  }
  let next = view.draft.next
  const changed = new Map<number, RowDraft | null>()
  const made: RowDraft[] = []
  for (const row of [...by_row.keys()].sort((a, b) => a - b)) {
    const cells = by_row.get(row) ?? new Map<string, string>()
    const own = draft_at(view, row)
    const file = view.table.rows[row]
    if (own) changed.set(own.n, over_written(own, cells, view.places))
    else {
      const fresh = over_written({ line: file?.line ?? 0, n: next, before: file?.cells ?? [], cells: {} }, cells, view.places)
      next += 1
      if (fresh) made.push(fresh)
    }
  }
  const rows = view.draft.rows.flatMap((row) => {
    const now = changed.get(row.n)
    return now === undefined ? [row] : now === null ? [] : [now]
  })
  return { rows: [...rows, ...made], next }
}

/** A cell of the catalog is one line. */
function one_line(text: string): string {
  return text.replace(/[\r\n\t]+/g, ' ').trim()
}

export function without_rows(view: SheetView, rows: readonly number[]): SheetDraft {
  let next = view.draft.next
  const dropped = new Set<number>()
  const made: RowDraft[] = []
  for (const row of rows) {
    const own = draft_at(view, row)
    if (own) dropped.add(own.n)
    const file = view.table.rows[row]
    if (!file) continue
    made.push({ line: file.line, n: next, before: file.cells, cells: {}, remove: true })
    next += 1
  }
  return { rows: [...view.draft.rows.filter(({ n }) => !dropped.has(n)), ...made], next }
}

/** Gives up what was written into this row. */
export function without_draft(draft: SheetDraft, n: number): SheetDraft {
  return { ...draft, rows: draft.rows.filter((row) => row.n !== n) }
}

/** As the server takes them; rows that wait for a choice, and those left out, are not among them. */
export function edits_of(draft: SheetDraft, left_out: readonly number[] = []): { edits: RowEdit[]; sent: RowDraft[] } {
  const sent = draft.rows.filter((row) => is_settled(row) && !left_out.includes(row.n))
  const edits = sent.map(({ line, cells, remove }): RowEdit => (remove ? { line, remove: true } : { line, cells: { ...cells } }))
  return { edits, sent }
}

/** `3 cells of 2 rows changed, 1 row added`. */
export function said_of(rows: readonly RowDraft[]): string {
  const count = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`
  const changed = rows.filter(({ line, remove }) => line !== 0 && !remove)
  const cells = changed.reduce((sum, { cells }) => sum + Object.keys(cells).length, 0)
  const added = rows.filter(({ line }) => line === 0).length
  const removed = rows.filter(({ remove }) => remove).length
  const said: string[] = []
  if (cells > 0) said.push(`${count(cells, 'cell')}${changed.length > 1 ? ` of ${count(changed.length, 'row')}` : ''} changed`)
  if (added > 0) said.push(`${count(added, 'row')} added`)
  if (removed > 0) said.push(`${count(removed, 'row')} removed`)
  return said.join(', ')
}

const key_of = (table: string) => `rigproof.table.${table}`

function is_row(value: unknown): value is RowDraft {
  if (typeof value !== 'object' || value === null) return false
  const { line, n, before, cells } = value as Partial<RowDraft>
  return typeof line === 'number' && typeof n === 'number' && Array.isArray(before) && typeof cells === 'object' && cells !== null
}
/** What this tab keeps of a table until the file has it, and the table's revision it was written over. */
export async function kept_draft(table: string): Promise<{ revision: string; columns: string[]; draft: SheetDraft } | null> {
  try {
    const found: unknown = JSON.parse((await this_tab.own(key_of(table))) ?? 'null')
    if (typeof found !== 'object' || found === null) return null
    const { revision, columns, rows, next } = found as Record<string, unknown>
    if (typeof revision !== 'string' || !Array.isArray(columns) || !Array.isArray(rows) || typeof next !== 'number') return null
    return { revision, columns: columns.map(String), draft: { rows: rows.filter(is_row), next } }
  } catch {
    return null
  }
}
/** False: it could not be kept (storage forbidden or full). */
export function keep_draft(table: Table, draft: SheetDraft): boolean {
  const text = is_empty(draft) ? null : JSON.stringify({ revision: table.revision, columns: table.columns, ...draft })
  return this_tab.keep(key_of(table.name), text)
}
