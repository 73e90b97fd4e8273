// What a plan says, in sentences.
import type { Build, Claim, Money } from '../../lib/json/common'
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
