// Power as bars and table rows: loads against the supply, peaks against what it allows, plugs against
// what their contacts carry, the wall by market.
import type { BarRow, LoadRow } from '../../chart/bar_row'
import type { PhysicsJson } from '../../lib/json/physics'
import type { ByLoad, PowerJson, Wall } from '../../lib/json/power'
import { readable } from '../../lib/numbers'
import { is_quantity, number_words, percent_words, spread_of, value_words, with_unit } from '../../lib/words'
import { window_words } from './picture_words'

const at = (list: ByLoad, i: number) => {
  const value = list[i]
  return is_quantity(value) ? value : undefined
}

/** `41 to 77`, `345`; `?` where it is not known. Without its unit, which the heading says. */
export function bare_words(value: unknown, scale = 1): string {
  if (!is_quantity(value)) return '?'
  const spread = spread_of(value)
  if (!spread) return readable(scale * value.value)
  const [low, high] = [readable(scale * spread.low), readable(scale * spread.high)]
  return low === high ? low : `${low} to ${high}`
}

/** What the supply is rated for: the load under which its share is known, over that share. */
export function rated_w(power: PowerJson): number | undefined {
  for (const [i] of power.loads.entries()) {
    const [sum, share] = [at(power.sums, i), at(power.share_of_rating, i)]
    if (sum && share && share.value > 0) return Math.round((sum.value / share.value) * 1000) / 1000
  }
  return undefined
}

export function supply_rows(power: PowerJson): LoadRow[] {
  const limit = rated_w(power)
  return power.loads.map((name, i) => ({ name, load: at(power.sums, i), limit }))
}

/** Peaks by the length of their window. The middle is the claim's; without it nothing is drawn. */
export function window_rows(power: PowerJson, windows: NonNullable<PhysicsJson['supply_windows']>['windows']): BarRow[] {
  return windows.map((window): BarRow => {
    const claim = power.claims.find(({ id, where }) =>
      window.name === 'sustained' ? id === 'power.sustained' : id === 'power.excursions' && where === window.name
    )
    const row: BarRow = { name: window.name, told: window_words(window) }
    if (window.allowed_w !== undefined) {
      row.limit = window.allowed_w
      row.limit_told = with_unit(window.allowed_w, 'W')
    }
    if (window.low_w === undefined || window.high_w === undefined || !is_quantity(claim?.value)) return row
    row.value = claim.value.value
    if (window.low_w !== window.high_w) {
      row.low = window.low_w
      row.high = window.high_w
    }
    if (window.allowed_w !== undefined && window.high_w > window.allowed_w) row.tight = true
    return row
  })
}

export function plug_rows(power: PowerJson): LoadRow[] {
  return power.plugs.map(({ plug, feeds, contact, contact_at_most_a }) => ({
    name: `${plug} to ${feeds}`, load: contact, limit: contact_at_most_a
  }))
}
export function cable_words({ drop, loss }: PowerJson['plugs'][number]): string {
  return drop && loss ? `its cable drops ${value_words(drop)} and loses ${value_words(loss)}` : 'its cable is not known'
}

/** `in IE, certified at 230 V`. */
export function wall_words({ market, mains, mains_stated }: Wall): string {
  const where = market ? `in ${market}, ` : ''
  return `${where}certified at ${mains}${mains_stated ? '' : ' (the brief does not state the mains voltage)'}`
}

/** A year of use in one market, beside another build where there is one; empty where it is not known. */
export function year_words(wall: Wall, other: string): string {
  const { kwh_per_year, kwh_price, cost_per_year, cost_beside_other: apart, odds_cheaper } = wall
  if (!kwh_per_year) return ''
  let text = value_words(kwh_per_year)
  const currency = cost_per_year?.unit ?? ''
  if (kwh_price !== undefined) text += ` at ${readable(kwh_price)} ${currency} a kWh`.replace('  ', ' ')
  if (cost_per_year) text += `, ${value_words(cost_per_year)}`
  if (!apart) return text
  if (apart.value === 0 && apart.low === undefined) return `${text}; beside ${other}: the same`
  const size = `${number_words(Math.abs(apart.value), apart.unit)} ${apart.unit}`
  text += `; beside ${other}: ${size} ${apart.value <= 0 ? 'less' : 'more'}`
  return odds_cheaper === undefined ? text : `${text} (costs less in ${percent_words(odds_cheaper)} of the cases)`
}
