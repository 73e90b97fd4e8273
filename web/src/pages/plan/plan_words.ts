// What a plan says, in sentences.
import type { Build, Claim, Money, Title } from '../../lib/json/common'
import type { FrontierJson } from '../../lib/json/frontier'
import type { InsistJson } from '../../lib/json/insist'
import type { PlanJson } from '../../lib/json/plan'
import { rule_words } from '../../lib/rule_words'
import { name_words } from '../brief/fields'
import { limit_names, plain_words, section_names } from '../brief/plain'
import { cases_words, listed, not_promised, type Standing } from '../../lib/trust'
import { counted, money_words, percent_words } from '../../lib/words'

/** How sure it is that there is no better build. */
export function status_words(plan: PlanJson): string {
  const { proof, status } = plan
  if (status === 'impossible') return 'No build of this catalog satisfies the brief: that is proven.'
  if (status === 'proven')
    return `Proven: no build of this catalog does better under this brief. ${counted(proof.nodes, 'choice was', 'choices were')} looked at.`
  const more = proof.at_most_more ? ` At most ${money_words(proof.at_most_more)} of score can be missing.` : ''
  return `Not proven: the search was stopped.${more}`
}

/** A note of the plan with sections and keys of the brief by the names the form gives them. */
export function note_words(note: string): string {
  const named = note.replaceAll(/\b([a-z]+)\.([a-z][a-z0-9_]*)\b/g, (whole, section: string, key: string) =>
    section in section_names ? `“${section_names[section]}: ${section === 'limits' ? (limit_names[key] ?? name_words(key)) : name_words(key)}”` : whole
  )
  // A full stop behind a key is no part of its name.
  return named.replaceAll('saved_frac of what is left', 'the share the brief states of what is left').split(/(?<=[a-z])(\.)(?= |$)/).map((piece) => (piece === '.' ? piece : plain_words(piece))).join('')
}

const not_settled = (notes: PlanJson['notes']) => (notes ?? []).some((note) => note.startsWith('Not settled:'))
/** What a stop left open: it may come while rivals are compared, long after the proof. */
export function stopped_words({ status, builds, notes }: Pick<PlanJson, 'status' | 'builds' | 'notes'>): string {
  if (status === 'impossible') return 'Stopped after the proof that no build satisfies the brief: what stands in the way may not be told in full.'
  if (status === 'proven')
    return not_settled(notes)
      ? 'Stopped after the proof: the best build is proven; the comparison with its rivals was not ended.'
      : 'Stopped at the very end: the best build is proven, and its rivals were compared.'
  return builds.length > 0
    ? 'Stopped before the proof: these are the best builds found by then, and a better one may exist.'
    : 'Stopped before any build was found.'
}

/** What sets a column of the table apart from the first: `number 2, with another card`. */
export function column_words(builds: readonly Build[], i: number): string {
  const [first, build] = [builds[0], builds[i]]
  if (!first || !build || i === 0) return 'the best'
  const ids = (of: Build, kind: string) => (of.places ?? []).filter((place) => place.kind === kind).map(({ id }) => id).sort().join(' ')
  const other = [['cpu', 'processor'], ['gpu', 'card']].filter(([kind = '']) => ids(first, kind) !== ids(build, kind))
  const named = build.rival ? 'rival' : `number ${i + 1}`
  if (other.length === 0) return named
  return ids(build, 'gpu') === '' && ids(first, 'gpu') !== ''
    ? `${named}, with no card${other.length > 1 ? ' and another processor' : ''}`
    : `${named}, with another ${other.map(([, word]) => word).join(' and ')}`
}
/** Which builds have a column, and which have none; empty where one stands alone. */
export function columns_words(builds: readonly Build[]): string {
  if (builds.length < 2) return ''
  const rival = builds.some((build) => build.rival)
    ? ' A rival scores less than those, and still highest in more than 5 of 100 cases.'
    : ''
  return (
    'Each column is the best build with its own pair of processor and graphics chip. Builds with the same pair and another memory kit, ' +
    `case or drive have none, even where they are worth as much as the best.${rival}`
  )
}

/** Over requirements that stand against each other, or one that nothing meets. In: its number among several. */
export function conflict_words(requirements: number, number: number | null): string {
  const says = requirements === 1 ? 'this cannot be met' : 'these cannot all be met'
  return number === null ? says.charAt(0).toUpperCase() + says.slice(1) : `Conflict ${number}: ${says}`
}

/** `They meet in the rule on case volume.` In: ids of rules, engine first. */
export function meeting_words(rules: readonly string[]): string {
  const names = rules.map(rule_words)
  return names.length === 0 ? '' : `They meet in the ${names.length === 1 ? 'rule' : 'rules'} on ${listed(names)}.`
}

/** What there is to say beside the steps of a staircase; a stop proves nothing of the budgets below them. */
export function stairs_words({ status, steps, from, to, unsettled = [] }: FrontierJson): string | null {
  if (status === 'not proven') {
    const open = unsettled.map((each) => `${money_words(each.from)} to ${money_words(each.to)}`).join(' and ')
    return steps.length > 0
      ? `Not proven: stopped on the way. The steps here are settled; what ${open || 'less money'} buys is not.`
      : 'Not proven: stopped before any budget was settled. Nothing is known yet of what more or less money buys.'
  }
  return steps.length > 0 ? null : `No budget from ${money_words(from)} to ${money_words(to)} allows a build: that is proven.`
}

/** What there is to say of a wish beside its build and what differs. */
export function wish_words({ status, with: build, differences }: InsistJson): string | null {
  if (!build) return status === 'not proven' ? 'Not proven: stopped before a build with the wish was found.' : null
  if (!differences) return 'Not proven: stopped before both builds were settled. What the wish costs is not known.'
  return differences.changes.length === 0 ? 'The best build grants it as it is.' : null
}

/** The targets that the best build does not promise; where none of them counts, what best then means. */
export function unpromised(titles: readonly Title[]): string[] {
  const said = not_promised(titles)
  return titles.length > 0 && titles.every(({ rendered_fps }) => !rendered_fps)
    ? [...said, 'So best means no more here than the least to pay for what else the brief asks.']
    : said
}

/** What the score is, and what it is not. In: the brief's first budget; saved_frac of its worths. */
export function score_words(budget: Money | null, saved_frac: number): string {
  const whole = budget ? ` of ${money_words(budget)}` : ''
  const saved = saved_frac > 0 ? `, and ${percent_words(saved_frac)} of what is left of the budget is added` : ''
  return (
    `The score is no price. It says in money what a build is worth under this brief: one that reaches every target exactly is worth the budget${whole}; ` +
    `more frames than asked add a little${saved}. What you pay stands in the line before it.`
  )
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
  if (build.odds_best !== undefined) pieces.push(`scores highest ${cases_words(build.odds_best)}`)
  if (!first && build.odds_first_beats !== undefined)
    pieces.push(`the first beats it ${cases_words(build.odds_first_beats)}`)
  if (build.odds_all_hold !== undefined) pieces.push(`every claim that counts holds ${cases_words(build.odds_all_hold)}`)
  return pieces.join('; ')
}

/** What the plan says of its best build beside the claims. */
export function standing_of({ builds, status, notes }: Pick<PlanJson, 'builds' | 'status' | 'notes'>): Standing {
  const [best] = builds
  return {
    odds_all_hold: best?.odds_all_hold,
    // Where the search was stopped the listed builds alone were compared.
    odds_best: status === 'proven' ? best?.odds_best : undefined,
    beyond: not_settled(notes)
  }
}

/** Names of all parts of some builds, by id. */
export function part_names_of(builds: readonly Build[]): Record<string, string> {
  return Object.fromEntries(builds.flatMap(({ places }) => (places ?? []).map(({ id, name }) => [id, name ?? id])))
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
