// The figures of a part that claims hang on, and what the other parts of its kind have there: what a chooser shows
// beside their names. Other claims, and other figures, may still speak against a part that meets them.
import type { Claim, Quantity, WorkingCell } from '../../lib/json/common'
import { nearer } from '../../lib/order'
import { is_quantity, with_unit } from '../../lib/words'

export interface Figure {
  /** Where it stands: the table, its column, and what in a row's key follows the part. */
  table: string
  column: string
  within: readonly string[]
  unit: string
  /** `room (card height)`, `rated power` */
  name: string
  claim: Claim
  /** What a part must have there; absent: other figures count as well. */
  needs?: { relation: 'at_least' | 'at_most'; value: number }
}

const own = (part: string) => ({ row, value }: WorkingCell) => (row === part || row.startsWith(`${part}/`)) && is_quantity(value)
const number_of = (cell: WorkingCell) => (is_quantity(cell.value) ? cell.value : ({ value: NaN, unit: '' } satisfies Quantity))
const words_of = (text: string) => text.replaceAll(/[_-]/g, ' ')
function name_of(column: string, within: readonly string[]): string {
  const bare = words_of(column.replace(/_(mm|w|a|c|kg|gib|gb|l|dba|mt_s|m3_h|pa)$/, ''))
  const of = within[0] ? words_of(within[0]) : ''
  if (bare === 'by') return `room (${of})`
  return [of, bare].filter(Boolean).join(', ')
}

function figure_in(claim: Claim, kind: string, part: string): Figure | null {
  const { value, limit } = claim
  // What is modelled hangs on all at once; a figure that equals it does so by chance.
  if (claim.basis === 'model' || claim.id.startsWith('air.')) return null
  if (!is_quantity(value) || !limit || !('value' in limit) || (limit.relation !== 'at_most' && limit.relation !== 'at_least')) return null
  const cells = (claim.working?.cells ?? []).filter(own(part)).filter((cell) => number_of(cell).unit === value.unit)
  const is_one = (wanted: number) => cells.filter((cell) => wanted !== 0 && number_of(cell).value === wanted)
  const made = (cell: WorkingCell, needs?: Figure['needs']): Figure => {
    const within = cell.row.split('/').slice(1)
    return { table: cell.table, column: cell.column, within, unit: value.unit, name: name_of(cell.column, within), claim, ...(needs ? { needs } : {}) }
  }
  // The part brings what is limited, or the limit itself: then as much as is asked of it, in all likelihood.
  const [claimed, ...more_claimed] = is_one(value.value)
  if (claimed && more_claimed.length === 0) return made(claimed, { relation: limit.relation, value: limit.value })
  const [limiting, ...more_limiting] = is_one(limit.value)
  if (limiting && more_limiting.length === 0)
    return made(limiting, limit.relation === 'at_most'
      ? { relation: 'at_least', value: value.high ?? value.value }
      : { relation: 'at_most', value: value.low ?? value.value })
  // One of several that add up: shown, not judged.
  const [only, ...others] = cells.filter(({ table }) => table === kind)
  return only && others.length === 0 ? made(only) : null
}

/** Shown beside a name: more would be a table. */
const at_most = 3
const key_of = ({ table, column, within }: Figure) => [table, column, ...within].join(' ')
/** Of the claims that do not hold and hang on a figure of this part, nearest to failing first; those that can be judged before all. */
export function figures_of(claims: readonly Claim[], kind: string, part: string): Figure[] {
  const found = claims
    .filter(({ verdict }) => verdict !== 'holds' && verdict !== 'unknown')
    .sort(nearer)
    .flatMap((claim) => figure_in(claim, kind, part) ?? [])
  const judged_first = [...found.filter(({ needs }) => needs), ...found.filter(({ needs }) => !needs)]
  return judged_first.filter((each, i) => judged_first.findIndex((other) => key_of(other) === key_of(each)) === i).slice(0, at_most)
}

/** What each part of the kind has there; parts that do not state it are not in it. */
export function figures_in(
  table: { columns: readonly string[]; rows: ReadonlyArray<{ cells: readonly string[] }> }, kind: string, { column, within }: Figure
): Map<string, number> {
  const at = table.columns.indexOf(column)
  const id = ['id', kind, 'part'].map((name) => table.columns.indexOf(name)).find((place) => place >= 0) ?? -1
  const out = new Map<string, number>()
  if (at < 0 || id < 0) return out
  for (const { cells } of table.rows) {
    const text = cells[at] ?? ''
    const rest = cells.filter((_, i) => i !== at && i !== id)
    const part = cells[id] ?? ''
    if (text !== '' && Number.isFinite(Number(text)) && within.every((piece) => rest.includes(piece))) out.set(part, Number(text))
  }
  return out
}

/** Null: it is not stated, or not judged by this figure alone. */
export function meets({ needs }: Figure, value: number | undefined): boolean | null {
  if (!needs || value === undefined) return null
  return needs.relation === 'at_least' ? value >= needs.value : value <= needs.value
}
/** `height 149 mm: enough`. */
export function figure_words(figure: Figure, value: number | undefined): string {
  const says = `${figure.name} ${value === undefined ? 'not stated' : with_unit(value, figure.unit)}`
  const met = meets(figure, value)
  if (met === null) return says
  if (figure.needs?.relation === 'at_least') return `${says}: ${met ? 'enough' : 'too little'}`
  return `${says}: ${met ? 'within it' : 'too much'}`
}
/** Fewest first that are short of a figure; not stated is short. */
export function short_of(figures: readonly Figure[], values: ReadonlyArray<number | undefined>): number {
  return figures.filter((figure, i) => figure.needs && meets(figure, values[i]) !== true).length
}
/** What stands over the list, of each figure. */
export function figure_asks({ name, unit, claim, needs }: Figure): string {
  const verdict = claim.verdict === 'fails' ? 'fails' : `is ${claim.verdict}`
  const asked = needs
    ? `it takes ${needs.relation === 'at_least' ? 'at least' : 'at most'} ${with_unit(needs.value, unit)} of ${name}`
    : `${name} is one of several figures that count for it`
  return `“${claim.statement.replace(/\.$/, '')}” ${verdict}: ${asked}.`
}
