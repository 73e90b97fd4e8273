// Importing over the API: the preview, what was written, and stepping back over it and forth.
import { ask } from '../../lib/api'
import { part_names, put_table_back, table_revisions, type PartName } from '../../lib/documents'
import type { TableSpec } from '../../lib/forms'
import type { ImportJson } from '../../lib/json/import'
import { counted } from '../../lib/words'
import type { Forms } from './forms'
import { table_of_place } from './sheet_lines'

export interface ImportAsked {
  text: string
  mapping: string
  skip_bad: boolean
  write: boolean
}
export const ask_import = (body: ImportAsked, signal?: AbortSignal) => ask<ImportJson>('/import', { method: 'POST', body, signal })

/** An import that was written: for each table the revision before it and the one it made. */
export interface Written {
  said: string
  files: ReadonlyArray<{ table: string; before: number; after: number }>
}

export async function written_files(done: ImportJson): Promise<Written> {
  const tables = [...new Set(done.files.map(table_of_place).filter(Boolean))]
  const files = await Promise.all(
    tables.map(async (table) => {
      const head = (await table_revisions(table)).at(-1)?.revision ?? 0
      return { table, before: head - 1, after: head }
    })
  )
  return {
    said: `Written into ${done.table}: ${counted(done.new.length, 'new row')}, ${counted(done.changed.length, 'row')} changed.`,
    files: files.filter(({ before }) => before > 0)
  }
}

/**
 * Puts every table back as it was before, or on again. Rows of provenance speak of rows of the other
 * table, so they go first and come last. What went wrong, in words; empty: nothing.
 */
export async function put_back(what: Written, back: boolean): Promise<string> {
  const of_sources = ({ table }: { table: string }) => table === 'provenance'
  const rest = what.files.filter((file) => !of_sources(file))
  const sources = what.files.filter(of_sources)
  for (const file of back ? [...sources, ...rest] : [...rest, ...sources]) {
    const answer = await put_table_back(file.table, back ? file.before : file.after)
    const first = answer.problems[0]
    if (!answer.written) return `${file.table}.csv cannot be put ${back ? 'back' : 'on again'}: ${first ? `${first.place.split('/').at(-1) ?? ''}, line ${first.line ?? '?'}: ${first.text}` : 'the catalog would not be right'}.`
  }
  return ''
}

/** The parts that rows of this table may belong to. */
export async function parts_named(forms: Forms, form: TableSpec): Promise<PartName[]> {
  const of = form.columns[0]?.refers
  const kinds = forms.tables.filter(({ kind, name }) => kind && (of === 'part' || of === name))
  return (await Promise.all(kinds.map(({ name }) => part_names(name)))).flat()
}
