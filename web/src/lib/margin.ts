// The margin bar of a claim in fractions of its limit: what is drawn, before anyone draws it.
// 0 is the limit; room left is positive and grows to the right, overshoot negative.
import type { Claim } from './json/common'
import { place_of_cell } from './rule_words'
import { is_quantity, measured_words, percent_words, room_words, share_words, spread_of } from './words'
import type { Spread } from './words'

export interface MarginScale {
  low_frac: number
  high_frac: number
}
/** From a fifth of the limit over it to two fifths of room: one scale for all bars. */
export const usual_scale: MarginScale = { low_frac: -0.2, high_frac: 0.4 }

export interface MarginMarks {
  middle: number | null
  spread: Spread | null
  measured: number | null
  unknown: boolean
}

function limit_size(claim: Claim): number | null {
  const { margin, margin_frac, limit } = claim
  if (is_quantity(margin) && margin.value !== 0 && margin_frac) return Math.abs(margin.value / margin_frac)
  if (limit && 'value' in limit && limit.value !== 0) return Math.abs(limit.value)
  return null
}
function measured_room(claim: Claim): number | null {
  const { measured, limit } = claim
  if (!measured || !limit || !('value' in limit)) return null
  if (limit.relation === 'at_most') return limit.value - measured.value
  if (limit.relation === 'at_least') return measured.value - limit.value
  return null
}

export function margin_marks(claim: Claim): MarginMarks {
  const size = limit_size(claim)
  const unknown = claim.verdict === 'unknown'
  const middle = unknown ? null : (claim.margin_frac ?? null)
  const spread = middle !== null && is_quantity(claim.margin) ? spread_of(claim.margin) : null
  const room = measured_room(claim)
  return {
    unknown,
    middle,
    spread: spread && size ? { low: spread.low / size, high: spread.high / size } : null,
    measured: room !== null && size ? room / size : null
  }
}

/** The bar in words, for who does not see it. */
export function margin_description(claim: Claim): string {
  const marks = margin_marks(claim)
  if (marks.unknown)
    return ['Unknown.', ...claim.missing.map((cell) => `Missing: ${place_of_cell(cell)}.`)].join(' ')
  const said = [[room_words(claim), share_words(claim)].filter(Boolean).join('; ')]
  if (marks.spread)
    said.push(
      `90 % interval from ${percent_words(marks.spread.low, 2)} to ${percent_words(marks.spread.high, 2)}`
    )
  if (claim.measured) said.push(measured_words(claim))
  return said
    .filter(Boolean)
    .map((each) => `${each.charAt(0).toUpperCase()}${each.slice(1)}.`)
    .join(' ')
}
