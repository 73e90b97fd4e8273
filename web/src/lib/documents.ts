// Documents of the workshop and its tables, as the server keeps them (its openapi.json).
import { ask, trouble_of, type Trouble } from './api'

export type DocumentKind = 'brief' | 'build' | 'mapping'
export interface DocumentHead {
  id: string
  kind: DocumentKind
  name: string
  revision: number
  head_revision: number
  saved_at: string
  deleted: boolean
}
export interface DocumentText extends DocumentHead {
  text: string
  problems: Trouble[]
}
export interface TableHead {
  name: string
  meaning: string
  /** A kind of part, else a relation or a list. */
  kind: boolean
  rows: number
}
export interface Workshop {
  version: string
  folder: string
  revision: string
  /** Why the files as they are now cannot be read; empty: they were. */
  trouble: string
  skipped: Trouble[]
  parts: number
  tables: TableHead[]
  questions: Array<{ name: string; about: string }>
}
export interface PartName {
  id: string
  name?: string
}
export interface Table {
  name: string
  columns: string[]
  rows: Array<{ line: number; cells: string[] }>
  revision: string
}
/** Line 0: a new row. */
export interface RowEdit {
  line: number
  cells?: Record<string, string>
  remove?: boolean
}
export interface TableEdited {
  problems: Trouble[]
  problem_count: number
  written: boolean
  revision: string
}
export interface PricePoint {
  seen: string
  seller: string
  market: string
  condition: string
  price: { currency: string; minor: number }
  tax_included: boolean
  origin: string
  stock?: number
}

/** The list after one of it was saved: it comes first. The same list where nothing is new. */
export function with_saved(
  list: readonly DocumentHead[],
  head: Pick<DocumentHead, 'id' | 'name' | 'revision' | 'saved_at'>
): readonly DocumentHead[] {
  const was = list.find(({ id }) => id === head.id)
  if (!was || (was.name === head.name && was.revision === head.revision)) return list
  return [{ ...was, ...head, head_revision: Math.max(was.head_revision, head.revision) }, ...list.filter((each) => each !== was)]
}

type Signal = AbortSignal | undefined
const path_of = (id: string) => `/documents/${encodeURIComponent(id)}`
const table_path = (name: string) => `/tables/${encodeURIComponent(name)}`

const with_problems = <T extends { problems: unknown[] }>(answer: T) => ({
  ...answer,
  problems: answer.problems.map(trouble_of)
})

export const workshop = (signal?: Signal) =>
  ask<Workshop>('/workshop', { signal }).then((answer) => ({ ...answer, skipped: answer.skipped.map(trouble_of) }))
export const documents = (kind: DocumentKind, signal?: Signal) =>
  ask<{ documents: DocumentHead[] }>('/documents', { query: { kind }, signal }).then((answer) => answer.documents)
export const read_document = (id: string, revision?: number, signal?: Signal) =>
  ask<DocumentText>(path_of(id), { query: { revision }, signal }).then(with_problems)
export const new_document = (kind: DocumentKind, name: string, text: string) =>
  ask<DocumentText>('/documents', { method: 'POST', body: { kind, name, text } }).then(with_problems)
/** `after`: the revision the text was made from; an ApiError `conflict` when it is not the newest. */
export const save_document = (id: string, name: string, text: string, after: number) =>
  ask<DocumentText>(path_of(id), { method: 'PUT', body: { name, text, after } }).then(with_problems)
export const delete_document = (id: string, after: number) =>
  ask<DocumentHead>(path_of(id), { method: 'DELETE', query: { after } })

export const part_names = (kind: string, signal?: Signal) =>
  ask<{ parts: PartName[] }>(`/parts/${encodeURIComponent(kind)}`, { signal }).then((answer) => answer.parts)
export const read_table = (name: string, signal?: Signal) => ask<Table>(table_path(name), { signal })
/** Without `write` nothing changes: what would be wrong with the whole catalog comes back. */
export const edit_table = (name: string, after: string, edits: RowEdit[], write: boolean) =>
  ask<TableEdited>(`${table_path(name)}/edits`, { method: 'POST', body: { after, edits, write } }).then(with_problems)
export const table_revisions = (name: string, signal?: Signal) =>
  ask<{ revisions: Array<{ revision: number; saved_at: string }> }>(`${table_path(name)}/revisions`, { signal }).then(
    (answer) => answer.revisions
  )
export const put_table_back = (name: string, revision: number) =>
  ask<TableEdited>(`${table_path(name)}/back`, { method: 'POST', body: { revision } }).then(with_problems)
export const price_series = (kind: string, id: string, signal?: Signal) =>
  ask<{ points: PricePoint[] }>(`/prices/${encodeURIComponent(kind)}/${encodeURIComponent(id)}`, { signal }).then(
    (answer) => answer.points
  )
