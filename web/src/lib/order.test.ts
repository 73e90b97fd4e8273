// The order of claims and the marks of a margin bar, on hand-made claims.
import { expect, it } from 'vitest'
import type { Claim } from './json/common'
import { margin_description, margin_marks } from './margin'
import { claim_key, nearest_count, split_claims } from './order'

function claim(id: string, over: Partial<Claim> = {}): Claim {
  return {
    id, grade: 'must', where: '', subjects: [], load: '', statement: id, verdict: 'holds',
    basis: 'part data', source: '', remedy: '', missing: [], ...over
  }
}
const ids = (claims: Claim[]) => claims.map((each) => each.id)

it('shows what is nearest to failing first and folds what has plenty of room', () => {
  const { near, plenty } = split_claims([
    claim('a.plenty', { margin_frac: 0.4 }),
    claim('b.small', { margin_frac: 0.05 }),
    claim('c.unknown', { verdict: 'unknown' }),
    claim('d.told', { verdict: 'fails', grade: 'tells', margin_frac: -0.5 }),
    claim('e.thin', { verdict: 'thin', margin_frac: 0.1 }),
    claim('f.fails', { verdict: 'fails', margin_frac: -0.01 }),
    claim('g.fails-more', { verdict: 'fails', margin_frac: -0.2 }),
    claim('h.yes'),
    claim('i.measured', {
      margin_frac: 0.6, measured: { value: 1, log: '', date: '2026-10-01', settled: '' }
    })
  ])
  expect(ids(near)).toEqual([
    'g.fails-more', 'f.fails', 'e.thin', 'c.unknown', 'd.told', 'b.small', 'i.measured'
  ])
  expect(ids(plenty)).toEqual(['a.plenty', 'h.yes'])
})

it('gives a claim a name of its own', () => {
  expect(claim_key(claim('fit.x', { where: 'socket 1', load: 'idle' }))).toBe('fit.x|socket 1|idle')
})

it('puts interval and measured value on the scale of the share of the limit', () => {
  // 4 mm of 200 mm: 2 %; 2 to 6 mm: 1 to 3 %; measured 199 of at most 200: 0.5 %.
  const one = claim('fit.card', {
    verdict: 'thin', margin: { value: 4, low: 2, high: 6, unit: 'mm' }, margin_frac: 0.02,
    value: { value: 196, unit: 'mm' }, limit: { relation: 'at_most', value: 200, unit: 'mm' },
    measured: { value: 199, log: '', date: '2026-10-01', settled: '' }
  })
  const marks = margin_marks(one)
  expect(marks.middle).toBe(0.02)
  expect(marks.spread?.low).toBeCloseTo(0.01, 12)
  expect(marks.spread?.high).toBeCloseTo(0.03, 12)
  expect(marks.measured).toBeCloseTo(0.005, 12)
  expect(margin_description(one)).toBe(
    '4 mm left; 2 % of the limit. 90 % interval from 1 % to 3 %. Measured 199 mm on 2026-10-01.'
  )
})

it('draws nothing known of an unknown claim and names its absent cell', () => {
  const one = claim('match.m2', {
    verdict: 'unknown', missing: [{ table: 'board_m2', row: '3', column: 'lanes', how: 'look it up' }]
  })
  expect(margin_marks(one)).toEqual({ middle: null, spread: null, measured: null, unknown: true })
  expect(margin_description(one)).toBe('Unknown. Missing: M.2 socket of 3: lanes.')
})

it('begins a narrow list with all that does not hold, and with eight at most where most of it holds', () => {
  const many = (count: number, verdict: Claim['verdict']) => Array.from({ length: count }, (_, i) => claim(`c.${i}`, { verdict }))
  expect(nearest_count(many(3, 'holds'))).toBe(3)
  expect(nearest_count(many(20, 'holds'))).toBe(8)
  expect(nearest_count([...many(12, 'fails'), ...many(20, 'holds')])).toBe(14)
  expect(nearest_count(many(12, 'unknown'))).toBe(12)
})
