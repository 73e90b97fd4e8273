// The order of claims wherever they are shown: nearest to failing first; the same total order as on
// the published sheet, so that the same claims give the same page.
import type { Claim } from './json/common'
import { is_quantity, verdicts } from './words'

const bytes_less = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)

function group_of(claim: Claim): number {
  if (claim.verdict === 'holds') return 2
  return claim.grade === 'tells' ? 1 : 0
}

export function nearer(a: Claim, b: Claim): number {
  const room = (claim: Claim) => claim.margin_frac ?? Number.MAX_VALUE
  return (
    group_of(a) - group_of(b) ||
    verdicts.indexOf(a.verdict) - verdicts.indexOf(b.verdict) ||
    room(a) - room(b) ||
    Number(a.grade === 'tells') - Number(b.grade === 'tells') ||
    (a.odds ?? 1) - (b.odds ?? 1) ||
    bytes_less(a.id, b.id) ||
    bytes_less(a.where, b.where) ||
    bytes_less(a.load, b.load)
  )
}

/** Holds with more than this share of its limit left: nothing to look at first. A choice of layout. */
export const plenty_frac = 0.25

export function has_plenty(claim: Claim): boolean {
  if (claim.verdict !== 'holds' || claim.measured) return false
  const { margin } = claim
  const settled = is_quantity(margin) && margin.value === 0 && margin.low === undefined
  return settled || claim.margin_frac === undefined || claim.margin_frac > plenty_frac
}

export function split_claims(claims: readonly Claim[]): { near: Claim[]; plenty: Claim[] } {
  const sorted = [...claims].sort(nearer)
  return {
    near: sorted.filter((claim) => !has_plenty(claim)),
    plenty: sorted.filter(has_plenty)
  }
}

/** How many of the near ones a narrow screen begins with: all that do not hold, and up to eight in all. */
export function nearest_count(near: readonly Claim[]): number {
  const open = near.filter(({ verdict }) => verdict !== 'holds').length
  return Math.min(near.length, Math.max(8, open + 2))
}

/** Names a claim among the claims of one build. */
export function claim_key(claim: Pick<Claim, 'id' | 'where' | 'load'>): string {
  return [claim.id, claim.where, claim.load].join('|')
}
