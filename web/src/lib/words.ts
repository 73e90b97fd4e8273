// What the pages say about quantities, money, claims and titles: the published sheet's wording.
import type { Claim, Limit, Missing, Money, Quantity, Title, Word, WorkingCell } from './json/common'
import { fixed, is_currency, minor_digits, minor_words, readable } from './numbers'

export type Verdict = Claim['verdict']
export type Value = Quantity | Word

/** In the order in which they are shown. */
export const verdicts: readonly Verdict[] = ['fails', 'doubtful', 'thin', 'unknown', 'holds']

export function is_quantity(value: unknown): value is Quantity {
  return typeof value === 'object' && value !== null && 'value' in value && 'unit' in value
}
export function is_tight(verdict: Verdict): boolean {
  return verdict === 'thin' || verdict === 'doubtful' || verdict === 'fails'
}

// The smallest step worth telling of a unit: no part is made, sold or measured to less. Ours.
const steps: ReadonlyArray<[units: string, step: number]> = [
  ['mm W degC C K dB(A) fps l L GiB GB/s Gbit/s Hz ns m3/h Pa', 0.1],
  ['A V ms m', 0.01],
  ['GB MT/s MHz rpm g px h days', 1]
]
export function least_step(unit: string): number {
  if (unit === '' || unit.includes(' ')) return 0
  return steps.find(([units]) => units.split(' ').includes(unit))?.[1] ?? 0
}

const away_from_zero = (value: number) => Math.sign(value) * Math.round(Math.abs(value))

/** Money keeps its minor digits; what is certain gets one more digit than what is not. */
export function number_words(value: number, unit: string, certain = true): string {
  if (is_currency(unit) && Math.abs(value) <= 1e12) {
    const digits = minor_digits(unit)
    return minor_words(away_from_zero(value * 10 ** digits), digits)
  }
  const step = least_step(unit)
  const told =
    step > 0 && Math.abs(value) < 1e9 ? away_from_zero(value / step) * step : value
  return readable(told === 0 ? 0 : told, certain ? 4 : 3)
}

const spelled: Readonly<Record<string, string>> = { degC: '°C', C: '°C', 'm3/h': 'm³/h' }

/** `plug` for one of `plugs`; `°C` for `degC`. */
export function unit_words(value: number, unit: string): string {
  if (value === 1 && unit.length > 3 && /^[a-z]+s$/.test(unit)) return unit.slice(0, -1)
  return spelled[unit] ?? unit
}
export function with_unit(value: number, unit: string, certain = true): string {
  const number = number_words(value, unit, certain)
  return unit === '' ? number : `${number} ${unit_words(value, unit)}`
}

export interface Spread {
  low: number
  high: number
}
/** The 90 % interval; null where the number is certain. */
export function spread_of(quantity: Quantity): Spread | null {
  const { low, high } = quantity
  if (low === undefined || high === undefined || low === high) return null
  return { low: Math.min(low, high), high: Math.max(low, high) }
}
/** `287 mm (285 to 289)`. */
export function value_words(value: Value): string {
  if (!is_quantity(value)) return value.text
  const spread = spread_of(value)
  const middle = with_unit(value.value, value.unit, spread === null)
  return spread === null ? middle : `${middle} ${interval_words(spread, value.unit)}`
}
/** `(285 to 289)`. */
export function interval_words(spread: Spread, unit: string): string {
  return `(${number_words(spread.low, unit, false)} to ${number_words(spread.high, unit, false)})`
}

const relation_words: Readonly<Record<Limit['relation'], string>> = {
  at_most: 'at most',
  at_least: 'at least',
  equals: 'must be',
  one_of: 'one of'
}
export function limit_words(limit: Limit): string {
  const what = 'text' in limit ? limit.text : with_unit(limit.value, limit.unit)
  return `${relation_words[limit.relation]} ${what}`
}

/** `1,350.00 EUR`, exact. */
export function money_words(money: Money): string {
  return `${minor_words(money.minor, minor_digits(money.currency))} ${money.currency}`
}
/** `+12.00 EUR`, `-3.50 EUR`, `0.00 EUR`. */
export function signed_money_words(money: Money): string {
  return (money.minor > 0 ? '+' : '') + money_words(money)
}
/** `12.00 EUR more`, `the same`. */
export function change_words(change: Money, less = 'less', more = 'more'): string {
  if (change.minor === 0) return 'the same'
  return `${money_words({ ...change, minor: Math.abs(change.minor) })} ${change.minor < 0 ? less : more}`
}
/** Minor units of an amount written with digits and one point; null when it is none of the currency. */
export function parse_amount(text: string, currency: string): Money | null {
  const digits = minor_digits(currency)
  const found = /^(-?)(\d{1,15})(?:\.(\d+))?$/.exec(text.trim())
  if (!found) return null
  const [, sign = '', whole = '', rest = ''] = found
  if (rest.length > digits) return null
  const minor = Number(whole + rest.padEnd(digits, '0'))
  if (!Number.isSafeInteger(minor) || minor > 1e15) return null
  return { currency, minor: sign && minor > 0 ? -minor : minor }
}
/** `1350.00`: as a brief writes it. */
export function plain_amount(money: Money): string {
  return minor_words(money.minor, minor_digits(money.currency)).replaceAll(',', '')
}

export function percent_words(frac: number, significant = 3): string {
  return `${readable(frac * 100, significant)} %`
}
export function odds_words(odds: number): string {
  if (odds > 0.99 && odds < 1) return 'above 0.99'
  if (odds < 0.01 && odds > 0) return 'below 0.01'
  return fixed(odds, 2)
}

const margin_of = (claim: Claim) => (is_quantity(claim.margin) ? claim.margin : null)

export function met_exactly(claim: Claim): boolean {
  return margin_of(claim)?.value === 0
}
/** `4.2 mm left`, `12 W over`, `exactly at the limit`; empty where there is no margin. */
export function room_words(claim: Claim): string {
  const margin = margin_of(claim)
  if (!margin) return ''
  if (margin.value === 0) return 'exactly at the limit'
  const step = least_step(margin.unit)
  const size =
    Math.abs(margin.value) < step / 2
      ? `less than ${with_unit(step, margin.unit)}`
      : with_unit(Math.abs(margin.value), margin.unit, spread_of(margin) === null)
  const short = claim.limit?.relation === 'at_least' ? 'short' : 'over'
  return `${size} ${margin.value > 0 ? 'left' : short}`
}
export function share_words(claim: Claim): string {
  if (claim.margin_frac === undefined) return ''
  const size = Math.abs(claim.margin_frac)
  return `${size > 0 && size < 0.001 ? 'under 0.1 %' : percent_words(size, 2)} of the limit`
}
/** `4.2 mm left, 1.4 % of the limit, odds 0.86`. */
export function margin_words(claim: Claim): string {
  const share = met_exactly(claim) ? '' : share_words(claim)
  const { odds } = claim
  const chance = odds !== undefined && odds > 0 && odds < 1 ? `odds ${odds_words(odds)}` : ''
  return [room_words(claim), share, chance].filter(Boolean).join(', ')
}
/** What a claim's draws say, in sentences. */
export function outcome_words(claim: Claim): string {
  if (claim.verdict === 'unknown')
    return (
      'There is no verdict: something it needs is not known.' +
      (claim.limit ? ` The limit is ${limit_words(claim.limit)}.` : '')
    )
  const said: string[] = []
  if (claim.value && claim.limit)
    said.push(`The value is ${value_words(claim.value)}; the limit: ${limit_words(claim.limit)}.`)
  else if (claim.value) said.push(`The value is ${value_words(claim.value)}.`)
  else if (claim.limit) said.push(`The limit: ${limit_words(claim.limit)}.`)
  const odds = claim.odds
  if (odds === undefined) said.push(`Over the whole range that is possible: ${claim.verdict}.`)
  else if (odds === 0 || odds === 1)
    said.push(`It holds in ${odds === 0 ? 'no' : 'every'} draw: ${claim.verdict}.`)
  else said.push(`It holds in ${odds_words(odds)} of the draws: ${claim.verdict}.`)
  return said.join(' ')
}
export function to_do_words(claim: Claim): string {
  if (claim.verdict === 'holds') return ''
  const swap = claim.swap
  if (claim.remedy || !swap) return claim.remedy
  if (!swap.in) return `leave out ${swap.out}`
  const into = (swap.count > 1 ? `${swap.count} of ` : '') + swap.in
  return swap.out ? `take ${into} instead of ${swap.out}` : `add ${into}`
}
export function cell_words(cell: Pick<Missing, 'table' | 'row' | 'column'>): string {
  return [cell.table, cell.row, cell.column].filter(Boolean).join(', ')
}
export function cell_meaning(cell: WorkingCell): string {
  const meaning = cell.meaning || cell.column
  return cell.part ? `${cell.part}: ${meaning}` : meaning
}
export function measured_words(claim: Claim): string {
  const measured = claim.measured
  if (!measured) return ''
  const unit = is_quantity(claim.value) ? claim.value.unit : ''
  const how = measured.settled ? `: ${measured.settled}` : ''
  const when = measured.date === undefined ? '' : ` on ${measured.date}`
  return `measured ${with_unit(measured.value, unit)}${when}${how}`
}
export function counted(count: number, one: string, many = `${one}s`): string {
  return count === 1 ? `1 ${one}` : `${minor_words(count, 0)} ${many}`
}

function counts_of(claims: readonly Claim[], grade: Claim['grade']): string {
  return verdicts
    .map((verdict) => {
      const count = claims.filter((c) => c.verdict === verdict && c.grade === grade).length
      if (count === 0) return ''
      if (verdict === 'holds') return `${count} ${count === 1 ? 'holds' : 'hold'}`
      if (verdict === 'fails') return `${count} ${count === 1 ? 'fails' : 'fail'}`
      return `${count} ${count === 1 ? 'is' : 'are'} ${verdict}`
    })
    .filter(Boolean)
    .join(', ')
}
/** `1 is thin, 95 hold; told beside: 4 fail`. */
export function verdict_counts(claims: readonly Claim[]): string {
  const tells = counts_of(claims, 'tells')
  return [counts_of(claims, 'must'), tells && `told beside: ${tells}`].filter(Boolean).join('; ')
}

const months =
  'January February March April May June July August September October November December'.split(' ')
/** `1 October 2026` of `2026-10-01`; anything else as it stands. */
export function long_date(date: string): string {
  const found = /^(\d{4})-(\d{2})-(\d{2})/.exec(date)
  const month = months[Number(found?.[2]) - 1]
  return found && month ? `${Number(found[3])} ${month} ${found[1]}` : date
}

/** `1920x1080, drawn at 67 % per axis`. */
export function setting_words(title: Title): string {
  const said = [title.resolution ?? '']
  if (title.render_scale !== undefined && title.render_scale !== 1)
    said.push(`drawn at ${percent_words(title.render_scale)} per axis`)
  const made = title.generated_per_rendered ?? 0
  if (made > 0) said.push(`${counted(made, 'generated frame')} for each rendered one`)
  return said.filter(Boolean).join(', ')
}
export function goal_words(title: Title): string {
  const floor = title.floor_fps === undefined ? '' : `, mean at least ${readable(title.floor_fps)} fps`
  return `${readable(title.target_fps)} fps${floor}`
}
