// Documents of the workshop and its tables, as the server keeps them.
import { ask, type Trouble } from './api'

export type DocumentKind = 'brief' | 'build' | 'mapping'
export interface DocumentHead {
  id: string
  kind: DocumentKind
  name: string
  revision: number
  saved_at: string
  deleted?: boolean
}
export interface DocumentText extends DocumentHead {
  revisions: number
  text: string
  problems: Trouble[]
}
export interface Workshop {
  schema: string
  version: string
  catalog: { folder: string; revision: string; parts: number; tables: Array<{ name: string; rows: number }> }
  questions: Array<{ name: string; about: string }>
  first_brief: string | null
}
export interface TableColumn {
  name: string
  unit: string
  meaning: string
  type: string
  required: boolean
}
export interface Table {
  name: string
  columns: TableColumn[]
  rows: Array<{ line: number; cells: string[] }>
  revision: string
}
export type TableEdit = { line: number | null; cells: Record<string, string> } | { line: number; remove: true }
export interface TableEdited {
  changes: unknown[]
  problems: Trouble[]
  revision?: string
}

type Signal = AbortSignal | undefined
const path_of = (id: string) => `/documents/${encodeURIComponent(id)}`

export const workshop = (signal?: Signal) => ask<Workshop>('/workshop', { signal })
export const documents = (kind: DocumentKind, signal?: Signal) =>
  ask<{ documents: DocumentHead[] }>('/documents', { query: { kind }, signal }).then((answer) => answer.documents)
export const read_document = (id: string, revision?: number, signal?: Signal) =>
  ask<DocumentText>(path_of(id), { query: { revision }, signal })
export const new_document = (kind: DocumentKind, name: string, text: string) =>
  ask<DocumentText>('/documents', { method: 'POST', body: { kind, name, text } })
/** `after`: the revision the text was made from; an ApiError `conflict` when it is not the newest. */
export const save_document = (id: string, name: string, text: string, after: number) =>
  ask<DocumentText>(path_of(id), { method: 'PUT', body: { name, text, after } })
export const delete_document = (id: string, after: number) =>
  ask<DocumentHead>(path_of(id), { method: 'DELETE', query: { after } })
export const revisions_of = (id: string, signal?: Signal) =>
  ask<{ revisions: Array<{ revision: number; name: string; saved_at: string; deleted: boolean }> }>(
    `${path_of(id)}/revisions`,
    { signal }
  ).then((answer) => answer.revisions)
export const read_table = (name: string, signal?: Signal) =>
  ask<Table>(`/tables/${encodeURIComponent(name)}`, { signal })
export const edit_table = (name: string, after: string, edits: TableEdit[], write: boolean) =>
  ask<TableEdited>(`/tables/${encodeURIComponent(name)}/edits`, { method: 'POST', body: { after, edits, write } })
