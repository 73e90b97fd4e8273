// How many screws, and at which letters: words of the count-out list.
import type { Fastener } from '../../lib/json/fit'

/** `B C F H, 4 in all` of `BCFH`. */
export function letters(at: string): string {
  return `${[...at].join(' ')}, ${at.length} in all`
}

/** `4`, `8 to 9`, `up to 4`, `at least 2`, `not known`. */
export function how_many({ at_least, at_most }: Pick<Fastener, 'at_least' | 'at_most'>): string {
  if (at_least === undefined && at_most === undefined) return 'not known'
  if (at_most === undefined) return `at least ${at_least}`
  if (at_least === undefined || at_least === 0) return at_most === 0 ? 'none' : `up to ${at_most}`
  return at_least === at_most ? `${at_most}` : `${at_least} to ${at_most}`
}
