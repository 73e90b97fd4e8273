import { expect, test } from 'vitest'
import { is_marked, mark_of, read_marks, with_mark } from './been'

const bench = { brief: 'b1', build: 'x1' }

test('nothing is marked before anybody looked', () => {
  for (const page of ['brief', 'plan', 'claims', 'case', 'air', 'parts', 'sheet'] as const) expect(is_marked([], page, bench)).toBe(false)
})
test('a mark is of the brief or of the build', () => {
  const marks = with_mark(with_mark([], 'plan b1'), 'claims x1')
  expect(is_marked(marks, 'plan', bench)).toBe(true)
  expect(is_marked(marks, 'plan', { ...bench, brief: 'b2' })).toBe(false)
  expect(is_marked(marks, 'claims', { ...bench, brief: 'b2' })).toBe(true)
  expect(is_marked(marks, 'claims', { ...bench, build: 'x2' })).toBe(false)
  expect(is_marked(marks, 'case', bench)).toBe(false)
})
test('a page without a brief or a build leaves no mark', () => {
  expect(mark_of('brief', { brief: '', build: 'x1' })).toBeNull()
  expect(mark_of('sheet', { brief: 'b1', build: '' })).toBeNull()
  expect(mark_of('start', bench)).toBeNull()
  expect(mark_of('parts', { brief: '', build: '' })).toBe('parts')
})
test('a mark is kept once, and the oldest are forgotten', () => {
  expect(with_mark(['plan b1', 'parts'], 'plan b1')).toEqual(['parts', 'plan b1'])
  let marks: readonly string[] = []
  for (let i = 0; i < 250; i += 1) marks = with_mark(marks, `plan b${i}`)
  expect(marks).toHaveLength(200)
  expect(marks[0]).toBe('plan b50')
})
test('what a browser kept is read with care', () => {
  expect(read_marks('["parts", 3]')).toEqual(['parts'])
  expect(read_marks('{')).toEqual([])
  expect(read_marks(null)).toEqual([])
})
