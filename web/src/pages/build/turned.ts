// What lies between two sets of claims, in words: what was mended, what got worse; and which pairs are
// worth drawing beside each other.
import type { Claim } from '../../lib/json/common'
import { claim_key } from '../../lib/order'
import { counted, type Verdict } from '../../lib/words'

const goodness: Readonly<Record<Verdict, number>> = { fails: 0, doubtful: 1, unknown: 2, thin: 3, holds: 4 }

export interface Turned {
  mended: Claim[]
  worse: Claim[]
  /** Without the claims that only one side makes and that hold: they speak of an exchanged part. */
  first: Claim[]
  second: Claim[]
  left_out: number
}

export function turned_between(first: readonly Claim[], second: readonly Claim[]): Turned {
  const before = new Map(first.map((claim) => [claim_key(claim), claim]))
  const after = new Map(second.map((claim) => [claim_key(claim), claim]))
  const good = (claim: Claim | undefined) => (claim ? goodness[claim.verdict] : goodness.holds)
  const mended: Claim[] = []
  const worse: Claim[] = []
  for (const [key, claim] of new Map([...before, ...after])) {
    const change = good(after.get(key)) - good(before.get(key))
    if (change > 0) mended.push(claim)
    if (change < 0) worse.push(claim)
  }
  const worth = (claim: Claim, others: ReadonlyMap<string, Claim>) =>
    claim.verdict !== 'holds' || others.has(claim_key(claim))
  const shown_first = first.filter((claim) => worth(claim, after))
  const shown_second = second.filter((claim) => worth(claim, before))
  return {
    mended, worse, first: shown_first, second: shown_second,
    left_out: first.length + second.length - shown_first.length - shown_second.length
  }
}

const at_most = 3
function listed(claims: readonly Claim[]): string {
  const said = claims.slice(0, at_most).map(({ statement }) => statement.replace(/\.$/, ''))
  if (claims.length > at_most) said.push(`${claims.length - at_most} more`)
  return said.join('; ')
}

/** `Better: the card fits. Worse: it is louder.` */
export function turned_words({ mended, worse }: Pick<Turned, 'mended' | 'worse'>): string {
  const said: string[] = []
  if (mended.length > 0) said.push(`Better: ${listed(mended)}.`)
  if (worse.length > 0) said.push(`Worse: ${listed(worse)}.`)
  if (said.length === 0) said.push('No verdict turned.')
  return said.join(' ')
}
export function left_out_words({ left_out }: Pick<Turned, 'left_out'>): string {
  if (left_out === 0) return ''
  return `${counted(left_out, 'claim that holds speaks', 'claims that hold speak')} of one of the two alone and ${left_out === 1 ? 'is' : 'are'} left out here.`
}
