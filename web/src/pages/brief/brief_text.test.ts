import { expect, test } from 'vitest'
import { currency_with, day_of_new, market_currencies, new_brief_text, newest_seen, problem_at, values_of } from './brief_text'

test('a new brief says how old a price may be', () => {
  const values = values_of(new_brief_text('A new brief', '2026-10-01'))
  expect(values?.one('brief').offers_not_older_than_days).toBe(14)
})
test('a new brief speaks of today, unless every price would be too old by then', () => {
  expect(day_of_new('2026-10-15', '2026-10-01')).toBe('2026-10-15')
  expect(day_of_new('2026-10-16', '2026-10-01')).toBe('2026-10-01')
  expect(day_of_new('2026-10-16', '')).toBe('2026-10-16')
  expect(day_of_new('2026-09-30', '2026-10-01')).toBe('2026-09-30')
})
test('the newest day is found in its column, and what is no day is passed over', () => {
  const rows = ['2026-09-27', '2026-10-01', 'soon', '2026-08-30'].map((seen, line) => ({ line, cells: ['part', seen] }))
  expect(newest_seen({ columns: ['part', 'seen'], rows })).toBe('2026-10-01')
  expect(newest_seen({ columns: ['part'], rows })).toBe('')
})
test('nothing is wrong with what is still to be filled in', () => {
  const text = '[[titles]]\ntitle = ""\nresolution = "wide"\n'
  const problems = [{ place: '', line: 2, text: 'title: no such title' }, { place: '', line: 3, text: 'resolution: is none' }]
  expect(problem_at(text, problems, 'titles', 'title', 0)).toBe('')
  expect(problem_at(text, problems, 'titles', 'resolution', 0)).toBe('is none')
})
test('a market that is typed brings the currency of its offers, unless somebody chose another', () => {
  const rows = [['IE', 'EUR'], ['GB', 'GBP'], ['GB', 'GBP'], ['CH', 'CHF'], ['CH', 'EUR'], ['NO', '']].map((cells, line) => ({ line, cells }))
  const known = market_currencies({ columns: ['market', 'currency'], rows })
  expect([...known]).toEqual([['IE', 'EUR'], ['GB', 'GBP']])
  expect(currency_with('GB', { market: 'IE', currency: 'EUR' }, known)).toBe('GBP')
  expect(currency_with('GB', { market: '', currency: '' }, known)).toBe('GBP')
  expect(currency_with('GB', { market: 'IE', currency: 'USD' }, known)).toBe('')
  expect(currency_with('CH', { market: 'IE', currency: 'EUR' }, known)).toBe('')
  expect(currency_with('IE', { market: 'XX', currency: 'EUR' }, known)).toBe('')
})
