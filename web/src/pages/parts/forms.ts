// What the catalog's schema says of tables and columns, and how a person reads it.
import type { ColumnSpec as ColumnForm, Forms as AllForms, TableSpec as TableForm } from '../../lib/forms'
import { readable } from '../../lib/numbers'
import { percent_words, unit_words } from '../../lib/words'

/** What the pages of tables need of the declared forms. */
export type Forms = Pick<AllForms, 'tables'>

const is_number = (form: ColumnForm) => form.type === 'number' || form.type === 'count'

/** Stands at the right of its column. */
export function at_right(form: ColumnForm | undefined): boolean {
  return form !== undefined && (is_number(form) || form.type === 'money')
}

const type_words: Readonly<Record<string, string>> = {
  slug: 'small letters, digits and hyphens',
  token: 'one word',
  tokens: 'words with | between two',
  flag: 'yes or no',
  money: 'an amount such as 1350.00',
  currency: 'a currency such as EUR',
  market: 'a market such as IE',
  date: 'a day such as 2026-10-01'
}

function bounds(form: ColumnForm): string {
  const { min = 0, max = 0 } = form
  const unit = form.unit ? ` ${unit_words(2, form.unit)}` : ''
  const number = form.type === 'count' ? 'a whole number' : 'a number'
  return min === 0 && max === 0 ? number + (unit && ` of${unit}`) : `${number} from ${readable(min, 6)} to ${readable(max, 6)}${unit}`
}

/** What may be written into a cell of the column. */
export function takes_words(form: ColumnForm): string {
  if (form.choices && form.choices.length > 0)
    return `${form.type === 'tokens' ? 'any of' : 'one of'} ${form.choices.join(', ')}`
  if (form.refers) return form.refers === 'part' ? 'the id of a part' : `the id of a row of ${form.refers}`
  if (is_number(form)) return bounds(form)
  return type_words[form.type] ?? 'a text in one line'
}

/** How exact a value is taken to be, and what an absent one may be; empty where nothing is said. */
export function trust_words(form: ColumnForm): string {
  const unit = form.unit ? ` ${unit_words(2, form.unit)}` : ''
  const said: string[] = []
  if (form.tolerance) said.push(`taken to be right within ${readable(form.tolerance)}${unit}`)
  else if (form.tolerance_frac) said.push(`taken to be right within ${percent_words(form.tolerance_frac)}`)
  if (form.class_low !== undefined && form.class_high !== undefined)
    said.push(`empty, it may be anything from ${readable(form.class_low)} to ${readable(form.class_high)}${unit}`)
  else if (!form.required) said.push('empty, it is unknown')
  return said.join('; ')
}

/** The tables whose rows belong to a part of this kind, with the column that names it. */
export function belonging(all: Forms, kind: string): Array<{ table: TableForm; column: string }> {
  return all.tables.flatMap((table) => {
    if (table.kind) return []
    const column = table.columns.find(({ refers }) => refers === kind || refers === 'part')
    return column ? [{ table, column: column.name }] : []
  })
}

export interface Shelf {
  table: TableForm
  /** What hangs on its rows, and on nothing before it. */
  beside: TableForm[]
}
/** Kinds with what belongs to each; what belongs to any part; lists that belong to none. */
export function shelves(all: Forms): { kinds: Shelf[]; of_any: TableForm[]; lists: TableForm[] } {
  const kinds = all.tables.filter(({ kind }) => kind).map((table): Shelf => ({ table, beside: [] }))
  const of_any: TableForm[] = []
  const lists: TableForm[] = []
  for (const table of all.tables) {
    if (table.kind) continue
    const refers = table.columns[0]?.refers
    const shelf = kinds.find((each) => each.table.name === refers)
    if (shelf) shelf.beside.push(table)
    else if (refers === 'part') of_any.push(table)
    else lists.push(table)
  }
  return { kinds, of_any, lists }
}
