// Budgets on a staircase of three hand-made steps.
import { expect, it } from 'vitest'
import type { FrontierJson, Step } from '../lib/json/frontier'
import { budget_words, key_step, moved_by, step_at } from './staircase'

const eur = (minor: number) => ({ currency: 'EUR', minor })
const step = (price: number, covers_to: number, score: number, gain?: number): Step => ({
  price: eur(price), covers_to: eur(covers_to), score: eur(score), prices: {}, parts: {}, titles: [], thin: 0,
  unknown: 0, changes: [], title_changes: [], ...(gain === undefined ? {} : { gain: eur(gain) })
})
const frontier: FrontierJson = {
  schema: 'rigproof.frontier/1', status: 'proven', market: 'IE', from: eur(50000), to: eur(150000),
  counted_from: eur(100000), steps: [step(80000, 100049, 90000), step(100050, 119999, 110000, 20000), step(120000, 150000, 115000, 5000)]
}

it('finds the step a budget reaches', () => {
  expect(step_at(frontier.steps, 79999)).toBeNull()
  expect(step_at(frontier.steps, 80000)).toBe(0)
  expect(step_at(frontier.steps, 119999)).toBe(1)
  expect(step_at(frontier.steps, 150000)).toBe(2)
  expect(step_at(frontier.steps.slice(0, 1), 120000)).toBeNull() // not settled what lies over it
})

it('moves by round money, from step to step, and to the ends', () => {
  expect(key_step(frontier)).toBe(1000) // 1,000 EUR in a hundred: 10 EUR
  expect(moved_by('ArrowRight', 100050, frontier)).toBe(101000)
  expect(moved_by('ArrowLeft', 100050, frontier)).toBe(100000)
  expect(moved_by('ArrowLeft', 100000, frontier)).toBe(99000)
  expect(moved_by('PageUp', 80000, frontier)).toBe(100050)
  expect(moved_by('PageUp', 130000, frontier)).toBe(150000)
  expect(moved_by('PageDown', 100050, frontier)).toBe(80000)
  expect(moved_by('PageDown', 60000, frontier)).toBe(50000)
  expect(moved_by('Home', 100000, frontier)).toBe(50000)
  expect(moved_by('ArrowRight', 150000, frontier)).toBe(150000)
  expect(moved_by('x', 100000, frontier)).toBeNull()
})

it('says what a budget buys', () => {
  expect(budget_words(frontier, 70000)).toBe('For 700.00 EUR there is no build.')
  const unsettled = [{ from: { currency: 'EUR', minor: 50000 }, to: { currency: 'EUR', minor: 75000 } }]
  expect(budget_words({ ...frontier, status: 'not proven', unsettled }, 70000)).toBe(
    'What 700.00 EUR buys is not settled: the search was stopped before it came there.'
  )
  expect(budget_words({ ...frontier, status: 'not proven', unsettled }, 76000)).toBe('For 760.00 EUR there is no build.')
  expect(budget_words(frontier, 110000)).toBe(
    'For 1,100.00 EUR the best build costs 1,000.50 EUR and is worth 1,100.00 EUR under the brief (its score), 200.00 EUR more than the step below.'
  )
})
