// Axes and label places, worked by hand.
import { expect, it } from 'vitest'
import { axis_over, axis_within, curve_path, fitting, px_of, round_step, spread_out, tick_label, ticks_of, value_at } from './axis'

it('steps are 1, 2 or 5 times a power of ten', () => {
  expect(round_step(0.3)).toBeCloseTo(0.5, 12)
  expect(round_step(1)).toBe(1)
  expect(round_step(2.1)).toBe(5)
  expect(round_step(6)).toBe(10)
})

it('an axis goes from tick to tick over both values', () => {
  const axis = axis_over(3, 97, 0, 300, 50) // 94 x 50 / 300 = 15.7: steps of 20, 0 to 100
  expect(axis).toMatchObject({ from: 0, to: 100, step: 20 })
  expect(ticks_of(axis)).toEqual([0, 20, 40, 60, 80, 100])
  expect(px_of(axis, 50)).toBe(150)
  expect(value_at(axis, 75)).toBe(25)
})

it('an axis within keeps its ends and puts ticks where they fall', () => {
  expect(ticks_of(axis_within(7, 23, 0, 160, 50))).toEqual([10, 15, 20])
  expect(axis_within(5, 5, 0, 100, 50)).toMatchObject({ from: 4, to: 6 })
})

it('labels carry the decimals of the step', () => {
  expect(tick_label({ from: 0, to: 1, from_px: 0, to_px: 1, step: 0.5 }, 0.5)).toBe('0.5')
  expect(tick_label({ from: 0, to: 1, from_px: 0, to_px: 1, step: 200 }, 1200)).toBe('1,200')
  expect(tick_label({ from: 0, to: 1, from_px: 0, to_px: 1, step: 10 }, -20)).toBe('\u221220')
})

it('labels that would lie on one another are moved apart by the least that does', () => {
  expect(spread_out([10, 50], 14, 0, 100)).toEqual([10, 50])
  expect(spread_out([50, 50], 14, 0, 100)).toEqual([43, 57])
  expect(spread_out([57, 50], 20, 0, 100)).toEqual([63.5, 43.5])
  expect(spread_out([99, 99], 14, 0, 100)).toEqual([86, 100])
})

it('a line of many points is thinned and keeps its extremes', () => {
  const xs = Array.from({ length: 1000 }, (_, i) => i / 1000)
  const ys = xs.map((_, i) => (i === 300 ? -9 : i === 301 ? 9 : 0))
  const path = curve_path(xs, ys)
  expect(path.split('L').length).toBeLessThan(10)
  expect(path).toContain(' -9')
  expect(path).toContain(' 9')
  expect(curve_path([0, 1, 2], [1, null, 3])).toBe('M0 1M2 3')
})

it('text is cut to what fits', () => {
  expect(fitting('short', 100)).toBe('short')
  expect(fitting('a very long name of a title', 80).endsWith('\u2026')).toBe(true)
  expect(fitting('a very long name', 3)).toBe('')
})
