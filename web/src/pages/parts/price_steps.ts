// The history of a part's price as step lines: one for each seller, market and condition.
import { minor_digits } from '../../lib/numbers'
import type { PricePoint } from '../../lib/documents'

export interface PriceLine {
  seller: string
  market: string
  condition: string
  /** `larkmoor, IE` */
  name: string
  /** One for each day of the chart; null before the first sighting and after the last. */
  steps: Array<number | null>
  /** Where it was seen, not carried on from an earlier day. */
  seen: boolean[]
  last: PricePoint
}
export interface PriceChart {
  currency: string
  tax_included: 'yes' | 'no' | 'mixed'
  /** Seconds since 1970 of each day something was seen on, rising. */
  days_s: number[]
  /** Amounts in whole units of the currency. */
  lines: PriceLine[]
}

/** Midnight of `2026-10-01`, in seconds; null for what is no day. */
export function day_s(date: string): number | null {
  const found = /^(\d{4})-(\d{2})-(\d{2})/.exec(date)
  if (!found) return null
  const ms = Date.UTC(Number(found[1]), Number(found[2]) - 1, Number(found[3]))
  return Number.isFinite(ms) ? ms / 1000 : null
}

/**
 * A chart for each currency, since amounts of two are never compared. Of several sightings of one offer
 * on one day the last that was kept counts. A step stands until the next sighting.
 */
export function price_charts(points: readonly PricePoint[]): PriceChart[] {
  const currencies = [...new Set(points.map(({ price }) => price.currency))].sort()
  return currencies.map((currency) => chart_of(currency, points.filter(({ price }) => price.currency === currency)))
}

function chart_of(currency: string, points: readonly PricePoint[]): PriceChart {
  const dated = points.flatMap((point) => {
    const at = day_s(point.seen)
    return at === null ? [] : [{ at, point }]
  })
  const days_s = [...new Set(dated.map(({ at }) => at))].sort((a, b) => a - b)
  const index = new Map(days_s.map((day, i) => [day, i]))
  const by_offer = new Map<string, Map<number, PricePoint>>()
  for (const { at, point } of dated) {
    const key = [point.seller, point.market, point.condition].join('\n')
    const own = by_offer.get(key) ?? new Map<number, PricePoint>()
    own.set(index.get(at) ?? 0, point)
    by_offer.set(key, own)
  }
  const scale = 10 ** minor_digits(currency)
  const lines = [...by_offer.values()].map((own): PriceLine => {
    const places = [...own.keys()].sort((a, b) => a - b)
    const first = places[0] ?? 0
    const end = places.at(-1) ?? 0
    let now: number | null = null
    const steps = days_s.map((_, i) => {
      const point = own.get(i)
      if (point) now = point.price.minor / scale
      return i < first || i > end ? null : now
    })
    const last = own.get(end) as PricePoint
    const { seller, market, condition } = last
    const name = [seller, market, ...(condition === 'new' ? [] : [condition])].join(', ')
    return { seller, market, condition, name, steps, seen: days_s.map((_, i) => own.has(i)), last }
  })
  lines.sort((a, b) => a.last.price.minor - b.last.price.minor || a.name.localeCompare(b.name))
  const taxed = new Set(points.map(({ tax_included }) => tax_included))
  return { currency, tax_included: taxed.size > 1 ? 'mixed' : taxed.has(true) ? 'yes' : 'no', days_s, lines }
}
