// Blocks as spreadsheets put them on the clipboard, and where they go.
import { expect, it } from 'vitest'
import { beyond_right, beyond_words, holds, place_block, range_of, read_block, rows_shown, words_at, write_block } from './grid_model'

it('reads tab-separated blocks', () => {
  expect(read_block('a\tb\nc\td')).toEqual([['a', 'b'], ['c', 'd']])
  expect(read_block('a\tb\r\nc\td\r\n')).toEqual([['a', 'b'], ['c', 'd']])
  expect(read_block('one')).toEqual([['one']])
  expect(read_block('')).toEqual([['']])
  expect(read_block('a\t\n\tb')).toEqual([['a', ''], ['', 'b']])
  expect(read_block('a\n\nb')).toEqual([['a'], [''], ['b']])
})

it('reads quoted cells, and leaves inches alone', () => {
  expect(read_block('"a\tb\nc"\td')).toEqual([['a\tb\nc', 'd']])
  expect(read_block('"say ""yes"""\tx')).toEqual([['say "yes"', 'x']])
  expect(read_block('3.5"\t2.5"')).toEqual([['3.5"', '2.5"']])
  expect(read_block('"open\tx')).toEqual([['"open', 'x']])
})

it('writes what it reads', () => {
  const rows = [['a\tb', 'x"y'], ['', 'line\nbreak'], ['plain', '"']]
  expect(read_block(write_block(rows))).toEqual(rows)
})

it('fills a range with one cell and lays a block from its first', () => {
  const range = range_of({ row: 3, column: 2 }, { row: 2, column: 1 })
  expect(range).toEqual({ top: 2, left: 1, bottom: 3, right: 2 })
  expect(place_block([['x']], range, 9, 9).changes).toHaveLength(4)
  const laid = place_block([['a', 'b'], ['c', 'd']], { top: 8, left: 1, bottom: 8, right: 1 }, 9, 9)
  expect(laid.changes).toEqual([{ row: 8, column: 1, text: 'a' }, { row: 8, column: 2, text: 'b' }])
  expect(laid.left_out).toBe(2)
  expect(holds(range, { row: 2, column: 2 })).toBe(true)
  expect(holds(range, { row: 4, column: 2 })).toBe(false)
})

it('draws the rows in sight and a few beyond', () => {
  expect(rows_shown(0, 300, 30, 100_000)).toEqual({ from: 0, to: 18 })
  expect(rows_shown(3000, 300, 30, 100_000)).toEqual({ from: 92, to: 118 })
  expect(rows_shown(0, 300, 30, 3)).toEqual({ from: 0, to: 3 })
  expect(rows_shown(2_999_700, 300, 30, 100_000)).toEqual({ from: 99_982, to: 100_000 })
  expect(rows_shown(500, 300, 30, 0)).toEqual({ from: 0, to: 0 })
})

it('counts the columns that are not wholly in sight at the right', () => {
  const widths = [100, 100, 100] // with 50 before them: their right edges lie at 150, 250, 350
  expect(beyond_right(widths, 50, 0, 400)).toBe(0)
  expect(beyond_right(widths, 50, 0, 350)).toBe(0)
  expect(beyond_right(widths, 50, 0, 340)).toBe(1)
  expect(beyond_right(widths, 50, 0, 200)).toBe(2)
  expect(beyond_right(widths, 50, 150, 200)).toBe(0)
  expect(beyond_words(['a', 'b'])).toBe('a, b')
  expect(beyond_words('abcdefgh'.split(''))).toBe('a, b, c, d, e, f, g, h')
  expect(beyond_words('abcdefghi'.split(''))).toBe('a, b, c, d, e, f, g and 2 more')
})
it('puts words under a cell, over it where the next row is written in, and always in sight', () => {
  const sight = { left: 60, width: 500 }
  expect(words_at({ row: 3, column: 1, left_px: 100 }, { row: 3, column: 1 }, 30, sight, 200)).toEqual({ left: 100, top: 120, over: false })
  expect(words_at({ row: 3, column: 1, left_px: 100 }, { row: 4, column: 1 }, 30, sight, 200)).toEqual({ left: 100, top: 90, over: true })
  // Over the first row stands the head of the table.
  expect(words_at({ row: 0, column: 1, left_px: 100 }, { row: 1, column: 1 }, 30, sight, 200)).toEqual({ left: 100, top: 60, over: false })
  expect(words_at({ row: 3, column: 9, left_px: 900 }, { row: 3, column: 9 }, 30, sight, 200).left).toBe(360)
  expect(words_at({ row: 3, column: 0, left_px: 10 }, { row: 3, column: 0 }, 30, sight, 200).left).toBe(60)
})
