// What a plan says, in sentences.
import type { Build, Claim, Money } from '../../lib/json/common'
import type { FrontierJson } from '../../lib/json/frontier'
import type { InsistJson } from '../../lib/json/insist'
import type { PlanJson } from '../../lib/json/plan'
import { counted, money_words, odds_words } from '../../lib/words'

/** How sure it is that there is no better build. */
export function status_words(plan: PlanJson): string {
  const { proof, status } = plan
  if (status === 'impossible') return 'No build of this catalog satisfies the brief: that is proven.'
  if (status === 'proven')
    return `Proven: no build of this catalog does better under this brief. ${counted(proof.nodes, 'choice was', 'choices were')} looked at.`
  const more = proof.at_most_more ? ` At most ${money_words(proof.at_most_more)} of score can be missing.` : ''
  return `Not proven: the search was stopped.${more}`
}

/** What there is to say beside the steps of a staircase; a stop proves nothing of the budgets below them. */
export function stairs_words({ status, steps, from, to }: FrontierJson): string | null {
  if (status === 'not proven')
    return steps.length > 0
      ? 'Not proven: stopped on the way down. The steps here are settled, what less money buys is not.'
      : 'Not proven: stopped before any budget was settled. Nothing is known yet of what more or less money buys.'
  return steps.length > 0 ? null : `No budget from ${money_words(from)} to ${money_words(to)} allows a build: that is proven.`
}

/** What there is to say of a wish beside its build and what differs. */
export function wish_words({ status, with: build, differences }: InsistJson): string | null {
  if (!build) return status === 'not proven' ? 'Not proven: stopped before a build with the wish was found.' : null
  if (!differences) return 'Not proven: stopped before both builds were settled. What the wish costs is not known.'
  return differences.changes.length === 0 ? 'The best build grants it as it is.' : null
}

export interface Tally {
  holds: number
  thin: number
  doubtful: number
  fails: number
  unknown: number
}
/** Of must claims. */
export function tally(claims: readonly Claim[]): Tally {
  const out: Tally = { holds: 0, thin: 0, doubtful: 0, fails: 0, unknown: 0 }
  for (const claim of claims) if (claim.grade === 'must') out[claim.verdict] += 1
  return out
}
export function tally_words(of: Tally): string {
  const pieces = [`${of.holds} hold`]
  if (of.thin > 0) pieces.push(`${of.thin} ${of.thin === 1 ? 'is' : 'are'} thin`)
  if (of.doubtful > 0) pieces.push(`${of.doubtful} ${of.doubtful === 1 ? 'is' : 'are'} doubtful`)
  if (of.fails > 0) pieces.push(`${of.fails} ${of.fails === 1 ? 'fails' : 'fail'}`)
  if (of.unknown > 0) pieces.push(`${of.unknown} ${of.unknown === 1 ? 'is' : 'are'} unknown`)
  return pieces.join(', ')
}

/** `1,486.30 EUR in IE, 1,219.00 GBP in GB` */
export function prices_words(prices: Record<string, Money>): string {
  return Object.entries(prices)
    .map(([market, price]) => `${money_words(price)} in ${market}`)
    .join(', ')
}

/** What is said of a build beside its score. */
export function odds_of_build(build: Build, first: boolean): string {
  const pieces: string[] = []
  if (build.odds_best !== undefined) pieces.push(`best in ${odds_words(build.odds_best)} of the draws`)
  if (!first && build.odds_first_beats !== undefined)
    pieces.push(`the first beats it in ${odds_words(build.odds_first_beats)}`)
  if (build.odds_all_hold !== undefined) pieces.push(`every claim holds in ${odds_words(build.odds_all_hold)}`)
  return pieces.join('; ')
}

/** A name for a build that has none: what sets it apart from the others. */
export function build_names(builds: readonly Build[]): string[] {
  return builds.map((build) => {
    const called = (kind: string) => {
      const place = build.places?.find((each) => each.kind === kind)
      return place ? (place.name ?? place.id) : ''
    }
    return [called('gpu'), called('cpu')].filter(Boolean).join(' with ') || 'a build'
  })
}
