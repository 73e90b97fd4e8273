// What the claims of a build come to, in a few sentences.
import type { Claim } from '../../lib/json/common'
import { nearer } from '../../lib/order'
import { counted, margin_words, verdicts, type Verdict } from '../../lib/words'

function verb(verdict: Verdict, count: number): string {
  const one = count === 1
  if (verdict === 'holds') return one ? 'holds' : 'hold'
  if (verdict === 'fails') return one ? 'fails' : 'fail'
  return `${one ? 'is' : 'are'} ${verdict}`
}
function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}
/** `1 fails, 2 are thin and 95 hold`: the good last. */
function counts(claims: readonly Claim[]): string {
  return listed(
    verdicts.flatMap((verdict) => {
      const count = claims.filter((claim) => claim.verdict === verdict).length
      return count > 0 ? [`${count} ${verb(verdict, count)}`] : []
    })
  )
}

const before_words: Readonly<Record<Verdict, string>> = {
  fails: 'First to mend',
  doubtful: 'Nearest to failing',
  thin: 'Nearest to failing',
  unknown: 'First to look up',
  holds: 'Nearest to failing'
}

export interface Summary {
  /** What counts, and what is told beside. */
  counts: string
  /** The claim that is nearest to failing, or fails; null where there is none. */
  nearest: Claim | null
  /** Before its statement: `Fails:`. */
  nearest_is: string
  /** Behind it: `4 mm left, 1.3 % of the limit`. */
  nearest_margin: string
}

export function summary_of(claims: readonly Claim[]): Summary {
  const must = claims.filter(({ grade }) => grade === 'must')
  const told = claims.filter(({ grade }) => grade === 'tells')
  const said: string[] = []
  if (must.length > 0)
    said.push(
      must.every(({ verdict }) => verdict === 'holds')
        ? must.length === 1 ? 'The one claim that counts holds.' : `All ${must.length} claims that count hold.`
        : `Of ${counted(must.length, 'claim that counts', 'claims that count')}, ${counts(must)}.`
    )
  if (told.length > 0) said.push(`Told beside, excluding nothing: ${counts(told)}.`)
  const nearest =
    must.filter(({ verdict, margin_frac }) => verdict !== 'holds' || (margin_frac ?? 0) > 0).sort(nearer).at(0) ?? null
  return {
    counts: said.join(' '),
    nearest,
    nearest_is: nearest ? before_words[nearest.verdict] : '',
    nearest_margin: nearest ? margin_words(nearest) : ''
  }
}
