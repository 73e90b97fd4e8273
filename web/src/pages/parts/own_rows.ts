// What was written into tables in this browser: what is said of every row of a table was said before, and does not
// mean it. Kept with what it says, so that a cell that was put back is nobody's again.
import type { RowDraft } from './sheet_draft'
import { row_key } from './rows'

/** By the row's key: what was written, by column. A new row has all its cells here. */
export type OwnRows = Readonly<Record<string, { whole: boolean; cells: Readonly<Record<string, string>> }>>
export interface Own {
  /** The row as a whole was written here. */
  whole: boolean
  columns: readonly string[]
}

const most_rows = 3000
const key_start = 'rigproof.own.'
const key_of = (table: string) => `${key_start}${table}`

/** With what was sent and written. In: where the key's columns stand. */
export function with_own(own: OwnRows, sent: readonly RowDraft[], columns: readonly string[], places: readonly number[]): OwnRows {
  const out: Record<string, OwnRows[string]> = { ...own }
  for (const row of sent) {
    const before = row_key(row.before, places)
    const was = row.line === 0 ? undefined : out[before]
    if (row.line !== 0) Reflect.deleteProperty(out, before)
    if (row.remove) continue
    const key = row_key(columns.map((name, i) => row.cells[name] ?? row.before[i] ?? ''), places)
    out[key] = { whole: row.line === 0 || was?.whole === true, cells: { ...was?.cells, ...row.cells } }
  }
  return Object.fromEntries(Object.entries(out).slice(-most_rows))
}

/** Of a row as it stands now: what in it was written here, in the file or not there yet; null: nothing. */
export function own_of(own: OwnRows, draft: RowDraft | undefined, cells: readonly string[], columns: readonly string[], key: string): Own | null {
  const kept = own[key]
  const says = (name: string) => cells[columns.indexOf(name)] ?? ''
  const same = Object.entries(kept?.cells ?? {}).filter(([name, text]) => says(name) === text).map(([name]) => name)
  const written = new Set([...same, ...Object.keys(draft?.cells ?? {})])
  if (draft?.line === 0 || kept?.whole) return { whole: true, columns: [...written] }
  return written.size === 0 ? null : { whole: false, columns: columns.filter((name) => written.has(name)) }
}

export function kept_own(table: string): OwnRows {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(key_of(table)) ?? '{}')
    return typeof found === 'object' && found !== null ? (found as OwnRows) : {}
  } catch {
    return {}
  }
}
export function keep_own(table: string, own: OwnRows): void {
  try {
    if (Object.keys(own).length > 0) localStorage.setItem(key_of(table), JSON.stringify(own))
    else localStorage.removeItem(key_of(table))
  } catch {
    // Forbidden or full: the row then goes by what is said of its table.
  }
}
/** Something was written into some table here. */
export function wrote_any(): boolean {
  try {
    return Array.from({ length: localStorage.length }, (_, i) => localStorage.key(i) ?? '').some((key) => key.startsWith(key_start))
  } catch {
    return false
  }
}

/** The catalog's own word for it: whole tables of it were invented for the demo. */
export function is_demo({ columns, rows }: { columns: readonly string[]; rows: ReadonlyArray<{ cells: readonly string[] }> }): boolean {
  const at = (cells: readonly string[], name: string) => cells[columns.indexOf(name)] ?? ''
  return rows.some(({ cells }) => at(cells, 'row') === '*' && /\binvented for the demo\b/i.test(at(cells, 'source')))
}
