// A mapping as a form shows it: where each column of the catalog comes from, what is still to be said.
import type { Trouble } from '../../lib/api'
import type { PartName } from '../../lib/documents'
import type { ColumnSpec, TableSpec } from '../../lib/forms'
import { read_toml, remove_section, set_key, text_literal, type Edited } from '../../lib/toml_edit'
import { name_words } from '../brief/fields'
import { cells_of_line, separator_of } from './mapping_text'

/** A header of the pasted table, or one text for every row. */
export type Source = { from: string } | { constant: string }
export interface Match {
  by: string
  from: string
}
export interface MappingValues {
  table: string
  match: Match | null
  sources: ReadonlyMap<string, Source>
  /** `decimal`, `thousands`, `dates`, `unmatched`; and `source` and `seen` of where it comes from. */
  written: Readonly<Record<string, string>>
  /** Text taken out of every cell of a column. */
  removed: ReadonlyMap<string, string>
  aliases: number
}

const record = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Record<string, unknown>) : {}
const text_of = (value: unknown) => (value instanceof Date ? value.toISOString().slice(0, 10) : typeof value === 'string' ? value : '')

/** Null for a text that is no TOML. */
export function mapping_values(text: string): MappingValues | null {
  const root = read_toml(text)
  if (!root) return null
  const [mapping, match, provenance] = [record(root.mapping), record(root.match), record(root.provenance)]
  const sources = new Map<string, Source>()
  const removed = new Map<string, string>()
  for (const [name, value] of Object.entries(record(root.columns))) {
    const { from, constant, remove } = record(value)
    if (typeof from === 'string') sources.set(name, { from })
    else if (typeof constant === 'string') sources.set(name, { constant })
    if (typeof remove === 'string') removed.set(name, remove)
  }
  const written = Object.fromEntries(
    [...Object.entries(mapping), ...Object.entries(provenance)].map(([name, value]) => [name, text_of(value)])
  )
  return {
    table: text_of(mapping.table), match: typeof match.from === 'string' ? { by: text_of(match.by), from: match.from } : null, sources, written,
    removed, aliases: Object.keys(record(root.aliases)).length
  }
}

/** Found by what `[match]` says, so that no column says it. */
const is_matched = (form: TableSpec, column: ColumnSpec) => !form.kind && column === form.columns[0] && column.refers !== undefined

/** Columns that may be read, those that have to be there first. */
export function columns_of(form: TableSpec): ColumnSpec[] {
  const all = form.columns.filter((column) => !is_matched(form, column))
  return [...all.filter(({ required }) => required), ...all.filter(({ required }) => !required)]
}

/** What may stand in a column, where that is a few words. */
export const choices_of = ({ choices, type }: ColumnSpec): readonly string[] =>
  choices && choices.length > 0 ? choices : type === 'flag' ? ['yes', 'no'] : []

/** Columns that have to be said before rows can be read. */
export function still_to_say(form: TableSpec, values: MappingValues): string[] {
  const first = form.columns[0]
  const found = first && is_matched(form, first) && !values.match && !values.sources.has(first.name)
  return [
    ...(found ? [name_words(first.name)] : []),
    ...columns_of(form).filter(({ name, required }) => required && !values.sources.has(name)).map(({ name }) => name_words(name))
  ]
}

/** What the service says of a mapping, but for a column that is still to be said anyway. */
export function wrong_in(problems: readonly Trouble[], form: TableSpec, values: MappingValues): Trouble[] {
  return problems.filter(({ text }) => {
    const wanted = /expected \[columns\.(\w+)\] as well/.exec(text)?.[1]
    return !form.columns.some(({ name, required }) => name === wanted && required && !values.sources.has(name))
  })
}

const after = (edited: Edited | null, next: (text: string) => Edited | null): Edited | null => {
  const done = edited && next(edited.text)
  return done && { text: done.text, anew: done.anew || edited.anew }
}

/** Null: the column is not read. */
export function with_source(text: string, column: string, source: Source | null): Edited | null {
  const section = `columns.${column}`
  if (!source) return remove_section(text, section)
  const [key, other, value] = 'from' in source ? (['from', 'constant', source.from] as const) : (['constant', 'from', source.constant] as const)
  return after(set_key(text, { section, key: other }, null), (so_far) => set_key(so_far, { section, key }, text_literal(value)))
}

/** How rows find their part; names are written as aliases, each for the one part that is called so. */
export function with_match(text: string, match: Match, aliases: ReadonlyArray<readonly [string, string]> = []): Edited | null {
  let edited = after(set_key(text, { section: 'match', key: 'by' }, text_literal(match.by)), (so_far) =>
    set_key(so_far, { section: 'match', key: 'from' }, text_literal(match.from)))
  for (const [name, id] of aliases) edited = after(edited, (so_far) => set_key(so_far, { section: 'aliases', key: name }, text_literal(id)))
  return edited
}

/** What stands under this header, row by row. */
export function cells_under(pasted: string, header: string): string[] {
  const [first = '', ...rest] = pasted.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/).filter((line) => line.trim() !== '')
  const mark = separator_of(first)
  const at = cells_of_line(first, mark).indexOf(header)
  return at < 0 ? [] : rest.map((line) => cells_of_line(line, mark)[at] ?? '').filter((cell) => cell !== '')
}

/** Of names in the pasted table, those that exactly one part is called by, each once. */
export function aliases_for(cells: readonly string[], parts: readonly PartName[]): Array<[string, string]> {
  const by_name = new Map<string, string[]>()
  for (const { id, name } of parts) if (name) by_name.set(name.toLowerCase(), [...(by_name.get(name.toLowerCase()) ?? []), id])
  return [...new Set(cells)].flatMap((cell): Array<[string, string]> => {
    const ids = by_name.get(cell.toLowerCase()) ?? []
    return ids.length === 1 ? [[cell, ids[0] ?? '']] : []
  })
}
