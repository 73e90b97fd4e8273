// Rows of other tables that speak of parts which are to be removed, removed first.
import { edit_table, read_table } from '../../lib/documents'

import { belonging, type Forms } from './forms'
import { forget_tables } from './related'

/** What was removed: rows by table. Stops at the first table that would not be right without them. */
export async function remove_what_belongs(forms: Forms, kind: string, parts: readonly string[]): Promise<{ said: string; trouble: string }> {
  const done: string[] = []
  for (const { table, column } of belonging(forms, kind)) {
    const now = await read_table(table.name)
    const at = now.columns.indexOf(column)
    const edits = now.rows.filter(({ cells }) => parts.includes(cells[at] ?? '')).map(({ line }) => ({ line, remove: true }))
    if (edits.length === 0) continue
    const answer = await edit_table(table.name, now.revision, edits, true)
    forget_tables(table.name)
    const first = answer.problems[0]
    if (!answer.written)
      return { said: done.join(', '), trouble: `${table.name}.csv would not be right without them${first ? `: ${first.place.split('/').at(-1) ?? ''}, line ${first.line ?? '?'}: ${first.text}` : ''}.` }
    done.push(`${edits.length} of ${table.name}`)
  }
  return { said: done.join(', '), trouble: '' }
}
