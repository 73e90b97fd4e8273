// Which claims of two builds differ, and in what order that is worth reading.
import type { Claim } from '../lib/json/common'
import { claim_key } from '../lib/order'
import { verdicts } from '../lib/words'

export interface ClaimPair {
  key: string
  first: Claim | null
  second: Claim | null
}

const change_of = ({ first, second }: ClaimPair): number =>
  Math.abs((second?.margin_frac ?? 0) - (first?.margin_frac ?? 0))
const worse_of = ({ first, second }: ClaimPair): number =>
  Math.min(...[first, second].map((claim) => (claim ? verdicts.indexOf(claim.verdict) : verdicts.length)))
/** What is claimed: once where both say the same, else each with its letter, as each names its own parts. */
export function statements_of({ first, second }: ClaimPair): { of: '' | 'A' | 'B'; says: string }[] {
  if (!first || !second || first.statement === second.statement)
    return [{ of: '', says: (first ?? second)?.statement ?? '' }]
  return [{ of: 'A', says: first.statement }, { of: 'B', says: second.statement }]
}
const turned = ({ first, second }: ClaimPair): boolean => first?.verdict !== second?.verdict

function differs(pair: ClaimPair): boolean {
  const { first, second } = pair
  if (!first || !second) return true
  if (first.verdict !== second.verdict) return true
  return change_of(pair) > 1e-9 || JSON.stringify(first.value) !== JSON.stringify(second.value)
}

/** Pairs that differ: verdicts that turned first, the worst of them first; then by change of margin. */
export function compared(first: readonly Claim[], second: readonly Claim[]): ClaimPair[] {
  const pairs = new Map<string, ClaimPair>()
  for (const claim of first) pairs.set(claim_key(claim), { key: claim_key(claim), first: claim, second: null })
  for (const claim of second) {
    const key = claim_key(claim)
    pairs.set(key, { key, first: pairs.get(key)?.first ?? null, second: claim })
  }
  return [...pairs.values()].filter(differs).sort(
    (a, b) =>
      Number(turned(b)) - Number(turned(a)) ||
      (turned(a) ? worse_of(a) - worse_of(b) : 0) ||
      change_of(b) - change_of(a) ||
      (a.key < b.key ? -1 : 1)
  )
}
