// Offers written by hand; the least of the newest was picked by eye.
import { expect, it } from 'vitest'
import type { PricePoint } from '../../lib/documents'
import { least_offer, price_words } from './part_price'

const offer = (seller: string, minor: number, seen: string, more: Partial<PricePoint> = {}): PricePoint => ({
  seen, seller, market: 'IE', condition: 'new', price: { currency: 'EUR', minor }, tax_included: true, origin: '', ...more
})

it('takes what each seller asked last, and of these the least', () => {
  const points = [
    offer('a', 9000, '2026-09-01'),
    offer('a', 12000, '2026-09-20'),
    offer('b', 11000, '2026-09-10'),
    offer('c', 5000, '2026-09-20', { condition: 'used' }),
    offer('d', 4000, '2026-09-20', { market: 'GB', price: { currency: 'GBP', minor: 4000 } })
  ]
  expect(least_offer(points, 'IE')?.seller).toBe('b')
  expect(price_words(points, 'IE')).toBe('from 110.00 EUR in IE, seen 10 September 2026')
  expect(price_words(points, 'GB')).toBe('from 40.00 GBP in GB, seen 20 September 2026')
  expect(price_words(points, 'US')).toBe('no new one offered in US')
})
it('says where a price is before tax, and that there is no offer', () => {
  const us = offer('e', 7000, '2026-09-20', { market: 'US', price: { currency: 'USD', minor: 7000 }, tax_included: false })
  expect(price_words([us], undefined)).toBe('from 70.00 USD before tax in US, seen 20 September 2026')
  expect(price_words([], 'IE')).toBe('no new one offered in IE')
  expect(price_words([], undefined)).toBe('no offer')
})
