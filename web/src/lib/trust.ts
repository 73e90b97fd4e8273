// How far one can trust a build, in words: how many claims hold, which is nearest to failing and by how
// much, what is not settled, which targets it does not promise.
import type { Claim, Title } from './json/common'
import { readable } from './numbers'
import { nearer } from './order'
import { counted, is_quantity, limit_words, met_exactly, room_words, share_words, spread_of, verdicts, with_unit, type Verdict } from './words'

export interface Trust {
  /** How many of the claims that count hold, and in how many cases all of them do. */
  hold: string
  /** The claim that is nearest to failing, or fails; null where there is none. */
  nearest: Claim | null
  /** Before its statement. */
  nearest_is: string
  /** Behind it: by how much in its unit, and how surely. */
  nearest_by: string
  /** What is told beside and excludes nothing; empty: nothing is. */
  beside: string
  /** Of these what fails, the furthest first; targets of the brief have sentences of their own. */
  beside_fails: readonly Claim[]
  /** What is not settled; empty: nothing is open. */
  open: string
}

export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

/** `in 72 of 100 cases`: a case is one draw of all that is uncertain. */
export function cases_words(odds: number): string {
  if (odds === 1) return 'in every case'
  if (odds === 0) return 'in no case'
  if (odds > 0.99) return 'in more than 99 of 100 cases'
  return odds < 0.01 ? 'in fewer than 1 of 100 cases' : `in ${Math.round(odds * 100)} of 100 cases`
}

const glosses: Readonly<Partial<Record<Verdict, string>>> = {
  thin: ' (likely to hold, but not sure)',
  doubtful: ' (unlikely to hold)'
}
function verb(verdict: Verdict, count: number): string {
  const one = count === 1
  if (verdict === 'holds') return one ? 'holds' : 'hold'
  if (verdict === 'fails') return one ? 'fails' : 'fail'
  return `${one ? 'is' : 'are'} ${verdict}${glosses[verdict] ?? ''}`
}
/** `1 fails, 2 are unknown and 95 hold`: the good last. */
function counts(claims: readonly Claim[]): string {
  return listed(
    verdicts.flatMap((verdict) => {
      const count = claims.filter((claim) => claim.verdict === verdict).length
      return count > 0 ? [`${count} ${verb(verdict, count)}`] : []
    })
  )
}

function hold_words(must: readonly Claim[], odds_all_hold: number | undefined): string {
  if (must.length === 0) return ''
  const together = odds_all_hold !== undefined && odds_all_hold < 1 ? `, all together ${cases_words(odds_all_hold)}` : ''
  if (must.some(({ verdict }) => verdict !== 'holds'))
    return `Of ${counted(must.length, 'claim that counts', 'claims that count')}, ${counts(must)}${together}.`
  const all = must.length === 1 ? 'The one claim that counts holds' : `All ${must.length} claims that count hold`
  return `${all}${together}.`
}

const before_words: Readonly<Record<Verdict, string>> = {
  fails: 'First to mend',
  doubtful: 'Nearest to failing',
  thin: 'Nearest to failing',
  unknown: 'First to look up',
  holds: 'Nearest to failing'
}

/** `0.5 dB(A) left, 1.4 % of the limit (at most 34 dB(A)); it holds in 97 of 100 cases`. */
export function by_words(claim: Claim): string {
  if (claim.verdict === 'unknown') return 'something it needs is not known'
  const share = met_exactly(claim) ? '' : share_words(claim)
  const limit = claim.limit ? ` (${limit_words(claim.limit)})` : ''
  const room = [room_words(claim), share].filter(Boolean).join(', ')
  const { margin, odds } = claim
  if (odds === undefined || odds === 0 || odds === 1) return room && room + limit
  const spread = is_quantity(margin) ? spread_of(margin) : null
  const short = claim.limit?.relation === 'at_least' ? 'short' : 'over'
  const side = (value: number) =>
    `${with_unit(Math.abs(value), is_quantity(margin) ? margin.unit : '', false)} ${value < 0 ? short : 'left'}`
  const between = spread && claim.verdict !== 'holds' ? `anything between ${side(spread.low)} and ${side(spread.high)} is likely, and ` : ''
  return `${room && `${room}${limit}; `}${between}it holds ${cases_words(odds)}`
}

function open_words(must: readonly Claim[], told: readonly Claim[], { odds_best, beyond }: Standing): string {
  const unknown = (claims: readonly Claim[]) => claims.filter(({ verdict }) => verdict === 'unknown').length
  const said: string[] = []
  const [counting, beside] = [unknown(must), unknown(told)]
  if (counting > 0) said.push(`${counted(counting, 'claim that counts is', 'claims that count are')} unknown`)
  if (beside > 0) said.push(`${counted(beside, 'thing told beside is', 'things told beside are')} unknown`)
  if (odds_best !== undefined && odds_best < 1) said.push(`it scores highest ${cases_words(odds_best)}, another build in the rest`)
  if (beyond) said.push('a build beyond those compared may score highest in more than 5 of 100 cases')
  return said.join('; ')
}

const target_id = 'forecast.frame-target'

export interface Standing {
  odds_all_hold?: number | undefined
  odds_best?: number | undefined
  /** Not all that could be best in some case were compared. */
  beyond?: boolean | undefined
}

export function trust_of(claims: readonly Claim[], standing: Standing = {}): Trust {
  const must = claims.filter(({ grade }) => grade === 'must')
  const told = claims.filter(({ grade }) => grade === 'tells')
  const nearest =
    must.filter(({ verdict, margin_frac }) => verdict !== 'holds' || (margin_frac ?? 0) > 0).sort(nearer).at(0) ?? null
  return {
    hold: hold_words(must, standing.odds_all_hold),
    nearest,
    nearest_is: nearest ? before_words[nearest.verdict] : '',
    nearest_by: nearest ? by_words(nearest) : '',
    beside_fails: told.filter(({ id, verdict }) => verdict === 'fails' && id !== target_id).sort(nearer),
    beside: told.length > 0 ? `Told beside, excluding nothing: ${counts(told)}.` : '',
    open: open_words(must, told, standing)
  }
}

const spoken = (title: Title) => `${readable(title.target_fps)} fps in ${title.name ?? title.title}`
const sentence = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`

/** Targets of the brief that this build does not reach, or of which nothing is known; empty: all are reached. */
export function not_promised(titles: readonly Title[]): string[] {
  const said: string[] = []
  const unknown = new Map<string, Title[]>()
  for (const title of titles)
    if (!title.rendered_fps) {
      const why = title.why_unknown ?? 'its rate is not known'
      unknown.set(why, [...(unknown.get(why) ?? []), title])
    }
  for (const [why, those] of unknown) {
    const one = those.length === 1
    said.push(`Your ${one ? 'target' : 'targets'} of ${listed(those.map(spoken))} ${one ? 'is' : 'are'} not promised by it. ${sentence(plain_why(why))}`)
  }
  for (const title of titles) {
    const rate = title.rendered_fps
    if (!rate || rate.value >= title.target_fps) continue
    said.push(`Your target of ${spoken(title)} is not reached: the mean is ${with_unit(rate.value, rate.unit, spread_of(rate) === null)}.`)
  }
  return said
}

const not_so: Readonly<Record<Verdict, string>> = {
  fails: 'it fails', doubtful: 'it is doubtful', thin: 'it is likely, not sure', unknown: 'it is not known', holds: ''
}
/** The same told from claims, where there are no titles beside them. */
export function targets_not_held(claims: readonly Claim[]): string[] {
  return claims
    .filter(({ id, verdict }) => id === target_id && verdict !== 'holds')
    .map(({ verdict, statement }) => `Not promised, ${not_so[verdict]}: ${statement}`)
}
function plain_why(why: string): string {
  return why.replace(/^no card: /, 'it has no graphics card, and ')
}
