// What a part is offered for now, in a few words beside its name in a list.
import type { PricePoint } from '../../lib/documents'
import { long_date, money_words } from '../../lib/words'

/** The least of what each seller asked when last seen, new, in one market; null where nobody does. */
export function least_offer(points: readonly PricePoint[], market: string): PricePoint | null {
  const last = new Map<string, PricePoint>()
  for (const point of points) {
    if (point.market !== market || point.condition !== 'new') continue
    const before = last.get(point.seller)
    // Of two on one day the later in the list was kept later.
    if (!before || point.seen >= before.seen) last.set(point.seller, point)
  }
  return [...last.values()].reduce<PricePoint | null>(
    (least, point) => (least === null || point.price.minor < least.price.minor ? point : least),
    null
  )
}

/** `from 82.90 EUR in IE, seen 1 October 2026`. In: no market: that of the first offer there is. */
export function price_words(points: readonly PricePoint[], market: string | undefined): string {
  const where = market ?? points[0]?.market
  if (where === undefined) return 'no offer'
  const least = least_offer(points, where)
  if (!least) return `no new one offered in ${where}`
  return `from ${money_words(least.price)}${least.tax_included ? '' : ' before tax'} in ${where}, seen ${long_date(least.seen)}`
}
