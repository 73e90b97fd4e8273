// Rows that somebody wrote beside those that came with the catalog: worked out by hand.
import { expect, it } from 'vitest'
import { is_demo, own_of, with_own } from './own_rows'

const columns = ['part', 'seller', 'price']
const places = [0, 1]
const fresh = { line: 0, n: 1, before: [], cells: { part: 'a', seller: 's', price: '5' } }
const dearer = { line: 7, n: 2, before: ['b', 's', '6'], cells: { price: '7' } }

it('a new row is its writer\'s as a whole, of a changed one the cells', () => {
  const own = with_own({}, [fresh, dearer], columns, places)
  expect(own_of(own, undefined, ['a', 's', '5'], columns, 'a/s')?.whole).toBe(true)
  expect(own_of(own, undefined, ['b', 's', '7'], columns, 'b/s')).toEqual({ whole: false, columns: ['price'] })
  expect(own_of(own, undefined, ['c', 's', '6'], columns, 'c/s')).toBeNull()
})

it('a cell that was put back is nobody\'s again', () => {
  const own = with_own({}, [dearer], columns, places)
  expect(own_of(own, undefined, ['b', 's', '6'], columns, 'b/s')).toBeNull()
})

it('follows a row whose key is changed, and forgets one that is removed', () => {
  const moved = { line: 9, n: 3, before: ['a', 's', '5'], cells: { seller: 't' } }
  const own = with_own(with_own({}, [fresh], columns, places), [moved], columns, places)
  expect(Object.keys(own)).toEqual(['a/t'])
  expect(own['a/t']?.whole).toBe(true)
  expect(with_own(own, [{ line: 9, n: 4, before: ['a', 't', '5'], cells: {}, remove: true }], columns, places)).toEqual({})
})

it('what is not in the file yet is its writer\'s too', () => {
  expect(own_of({}, fresh, ['a', 's', '5'], columns, 'a/s')?.whole).toBe(true)
  expect(own_of({}, dearer, ['b', 's', '7'], columns, 'b/s')).toEqual({ whole: false, columns: ['price'] })
})

it('a catalog is a demo when whole tables of it say so', () => {
  const table = (...cells: string[][]) => ({ columns: ['table', 'row', 'source'], rows: cells.map((each) => ({ cells: each })) })
  expect(is_demo(table(['gpu', '*', 'x: invented for the demo, nothing is measured']))).toBe(true)
  expect(is_demo(table(['gpu', 'a', 'invented for the demo']))).toBe(false)
  expect(is_demo(table(['gpu', '*', 'the maker\'s list']))).toBe(false)
})
