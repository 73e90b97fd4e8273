// Pairs of hand-made claims, and bars of hand-made loads and titles.
import { expect, it } from 'vitest'
import type { Claim } from '../lib/json/common'
import { frame_time_row, load_row } from './bar_row'
import { compared, statements_of } from './compare'
import { warming_lines } from './line_panel'

const claim = (id: string, verdict: Claim['verdict'], margin_frac: number): Claim => ({
  id, grade: 'must', where: '', subjects: [], load: '', statement: id, verdict, margin_frac,
  basis: 'part data', source: '', remedy: '', missing: []
})

it('puts verdicts that turned first, then the largest change; what is the same is left out', () => {
  const first = [claim('a.same', 'holds', 0.1), claim('b.moved', 'holds', 0.1), claim('c.turned', 'holds', 0.1),
    claim('e.moved-more', 'holds', 0.1), claim('f.gone', 'holds', 0.2)]
  const second = [claim('a.same', 'holds', 0.1), claim('b.moved', 'holds', 0.12), claim('c.turned', 'fails', -0.1),
    claim('e.moved-more', 'holds', 0.3)]
  expect(compared(first, second).map((pair) => pair.key.split('|')[0])).toEqual([
    'c.turned', 'f.gone', 'e.moved-more', 'b.moved'
  ])
})

it('lets each build name its own parts, and says once what is the same', () => {
  const a = { ...claim('x', 'holds', 0.1), statement: 'The card Grand is light enough.' }
  const b = { ...claim('x', 'fails', -0.1), statement: 'The card Small is too heavy.' }
  expect(statements_of({ key: 'x', first: a, second: b })).toEqual([
    { of: 'A', says: a.statement }, { of: 'B', says: b.statement }
  ])
  expect(statements_of({ key: 'x', first: a, second: { ...b, statement: a.statement } })).toEqual([{ of: '', says: a.statement }])
  expect(statements_of({ key: 'x', first: null, second: b })).toEqual([{ of: '', says: b.statement }])
})

it('a frame that takes longer than the target is tight; an unknown one has no bar', () => {
  const row = frame_time_row({
    title: 'x', target_fps: 50, frame_time_ms: { value: 21, low: 19, high: 23, unit: 'ms' },
    p99_frame_time_ms: { value: 30, unit: 'ms' }
  })
  expect(row).toEqual({
    name: 'x', told: '21 ms, slowest 1 % over 30 ms', value: 21, low: 19, high: 23, whisker: 30, limit: 20,
    limit_told: '20 ms', tight: true
  })
  expect(frame_time_row({ title: 'x', target_fps: 50, why_unknown: 'no runs' })).toEqual({
    name: 'x', told: 'no runs', limit: 20, limit_told: '20 ms'
  })
})

it('a load is tight when its interval reaches over the limit', () => {
  const load = { value: 95, low: 90, high: 101, unit: 'W' }
  expect(load_row({ name: 'x', load, limit: 100 }).tight).toBe(true)
  expect(load_row({ name: 'x', load, limit: 102 }).tight).toBeUndefined()
  expect(load_row({ name: 'x', limit: 102 })).toEqual({ name: 'x', told: 'unknown', limit: 102 })
})

it('warming is drawn over minutes and only where each time has a temperature', () => {
  const drawn = warming_lines({
    load: 'title', time_s: [0, 300, 600], notes: [],
    curves: [{ name: 'processor', temp_c: [20, 50, 60], limit_c: 95 }, { name: 'short', temp_c: [20] }]
  })
  expect(drawn?.xs).toEqual([0, 5, 10])
  expect(drawn?.along).toBe('minutes under load')
  expect(drawn?.panels).toEqual([
    { label: 'temperature', unit: '°C', series: [{ name: 'processor', values: [20, 50, 60], limit: 95 }] }
  ])
  expect(warming_lines({ load: 'title', time_s: [0], curves: [], notes: [] })).toBeNull()
})
