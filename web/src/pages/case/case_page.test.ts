// Words of the count-out list and rows of hand-made tables.
import { expect, it } from 'vitest'
import { how_many, letters } from './fastener_words'
import { rows_of } from './place_choices'

it('counts screws out in words', () => {
  expect(letters('BCFH')).toBe('B C F H, 4 in all')
  expect([{ at_least: 4, at_most: 4 }, { at_least: 8, at_most: 9 }, { at_least: 0, at_most: 4 }, { at_least: 2 }, {}, { at_least: 0, at_most: 0 }].map(how_many)).toEqual([
    '4', '8 to 9', 'up to 4', 'at least 2', 'not known', 'none'
  ])
})

it('finds the rows of one thing in a table', () => {
  const table = {
    columns: ['case', 'mount'],
    rows: [{ line: 2, cells: ['a', 'top'] }, { line: 3, cells: ['b', 'front'] }, { line: 4, cells: ['a', 'rear'] }]
  }
  expect(rows_of(table, 'case', 'a').map(({ mount }) => mount)).toEqual(['top', 'rear'])
  expect(rows_of(table, 'board', 'a')).toEqual([])
})
