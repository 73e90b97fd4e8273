// Rows by their keys, text searched, prices as steps, a first mapping: hand-worked.
import { parse } from 'smol-toml'
import { expect, it } from 'vitest'
import type { PricePoint } from '../../lib/documents'
import { type TableSpec as TableForm } from '../../lib/forms'
import { belonging, shelves, takes_words, trust_words, type Forms } from './forms'
import { first_mapping, header_of, problems_in, separator_of } from './mapping_text'
import { day_s, price_charts } from './price_steps'
import { find_row, find_text, findable, key_places, row_key } from './rows'

const column = (name: string, more: object = {}) => ({ name, type: 'text', required: false, meaning: `the ${name}`, ...more })
const gpu: TableForm = {
  name: 'gpu', meaning: 'cards', kind: true, key_columns: 1,
  columns: [column('id', { type: 'slug', required: true }), column('name', { required: true }), column('maker_code'), column('length_mm', { type: 'number', unit: 'mm', min: 50, max: 600, tolerance: 2 })]
}
const inputs: TableForm = { name: 'gpu_inputs', meaning: 'inputs', kind: false, key_columns: 2, columns: [column('gpu', { refers: 'gpu' }), column('connector')] }
const offers: TableForm = {
  name: 'offers', meaning: 'offers', kind: false, key_columns: 2,
  columns: [column('part', { refers: 'part', required: true }), column('seller', { refers: 'sellers', required: true }), column('price', { type: 'money', required: true })]
}
const sellers: TableForm = { name: 'sellers', meaning: 'sellers', kind: false, key_columns: 1, columns: [column('id', { type: 'slug' })] }
const all: Forms = { tables: [gpu, inputs, offers, sellers] }

it('finds rows by whole keys, by their beginning, and by numbers written otherwise', () => {
  const rows = [['a', '12.50'], ['a', 'x'], ['b', '3']].map((cells, i) => ({ line: i + 2, cells }))
  const places = key_places(['fan', 'flow'], ['fan', 'flow'])
  expect(row_key(['a', 'x'], places)).toBe('a/x')
  expect(find_row(rows, places, 'a/x')).toBe(1)
  expect(find_row(rows, places, 'a/12.5')).toBe(0)
  expect(find_row(rows, places, 'a')).toBe(0)
  expect(find_row(rows, places, 'b')).toBe(2)
  expect(find_row(rows, places, 'c')).toBe(-1)
})

it('looks for text from row to row, around the end, both ways', () => {
  const cells = [['One', 'two'], ['three', 'ONE'], ['four', '']]
  const text_of = (row: number, at: number) => cells[row]?.[at] ?? ''
  const find = (text: string, row: number, back = false) => find_text(text, 3, 2, text_of, { row, column: 0 }, back)
  expect(find('one', 0)).toEqual({ row: 1, column: 1 })
  expect(find('one', 1)).toEqual({ row: 0, column: 0 })
  expect(find('one', 0, true)).toEqual({ row: 1, column: 1 })
  expect(find('four', 2)).toEqual({ row: 2, column: 0 })
  expect(find('five', 0)).toBe(null)
  expect(find('', 0)).toBe(null)
})

it('finds a cell by the name of what it names, too', () => {
  const names = new Map([['b-crown-50', 'Brook Crown 50']])
  const rows = [['b-crown-40'], ['b-crown-50']]
  const text_of = (row: number, at: number) => findable(rows[row]?.[at] ?? '', names.get(rows[row]?.[at] ?? '') ?? '')
  const find = (text: string) => find_text(text, 2, 1, text_of, { row: 0, column: 0 })
  expect(find('brook crown')).toEqual({ row: 1, column: 0 })
  expect(find('b-crown-50')).toEqual({ row: 1, column: 0 })
  expect(find('brook crown 40')).toBe(null)
  // Not across the end of the one and the beginning of the other.
  expect(find('50brook')).toBe(null)
})

it('says what a column takes', () => {
  expect(takes_words(gpu.columns[3] ?? column(''))).toBe('a number from 50 to 600 mm')
  expect(trust_words(gpu.columns[3] ?? column(''))).toBe('taken to be right within 2 mm; empty, it is unknown')
  expect(takes_words(column('side', { type: 'token', choices: ['top', 'end'] }))).toBe('one of top, end')
  expect(takes_words(offers.columns[0] ?? column(''))).toBe('the id of a part')
})

it('hangs relations on their kinds', () => {
  expect(belonging(all, 'gpu').map(({ table, column: name }) => [table.name, name])).toEqual([['gpu_inputs', 'gpu'], ['offers', 'part']])
  const { kinds, of_any, lists } = shelves(all)
  expect(kinds.map(({ table, beside }) => [table.name, ...beside.map(({ name }) => name)])).toEqual([['gpu', 'gpu_inputs']])
  expect(of_any.map(({ name }) => name)).toEqual(['offers'])
  expect(lists.map(({ name }) => name)).toEqual(['sellers'])
})

const point = (seen: string, seller: string, minor: number, currency = 'EUR', more: Partial<PricePoint> = {}): PricePoint => ({
  seen, seller, market: 'IE', condition: 'new', price: { currency, minor }, tax_included: true, origin: 'offers.csv', ...more
})

it('draws a step from each sighting to the next, by offer and by currency', () => {
  expect(day_s('1970-01-02')).toBe(86400)
  expect(day_s('soon')).toBe(null)
  const charts = price_charts([
    point('2026-10-01', 'x', 1000), point('2026-10-03', 'x', 1200), point('2026-10-02', 'y', 900),
    point('2026-10-04', 'y', 950), point('2026-10-04', 'y', 940), point('2026-10-03', 'z', 500, 'JPY')
  ])
  expect(charts.map(({ currency }) => currency)).toEqual(['EUR', 'JPY'])
  const [eur, jpy] = charts
  expect(eur?.days_s.map((day) => (day - (day_s('2026-10-01') ?? 0)) / 86400)).toEqual([0, 1, 2, 3])
  expect(eur?.lines.map(({ name, steps }) => [name, steps])).toEqual([
    ['y, IE', [null, 9, 9, 9.4]],
    ['x, IE', [10, 10, 12, null]]
  ])
  expect(eur?.lines[0]?.seen).toEqual([false, true, false, true])
  // No minor unit in JPY (ISO 4217).
  expect(jpy?.lines[0]?.steps).toEqual([500])
})

it('keeps used offers and mixed taxes apart', () => {
  const [chart] = price_charts([point('2026-10-01', 'x', 1000), point('2026-10-01', 'x', 700, 'EUR', { condition: 'used', tax_included: false })])
  expect(chart?.lines.map(({ name }) => name)).toEqual(['x, IE, used', 'x, IE'])
  expect(chart?.tax_included).toBe('mixed')
})

it('reads the header of a pasted table', () => {
  expect(separator_of('a;b;c,d')).toBe(';')
  expect(header_of('Art.\tWhat\tPrice\n1\t2\t3')).toEqual(['Art.', 'What', 'Price'])
  expect(header_of('\n"Length, mm",id\r\nx')).toEqual(['Length, mm', 'id'])
})

it('begins a mapping with what goes by the same name, and asks for what has to be there', () => {
  const text = first_mapping(gpu, ['Name', 'Maker code', 'Length', 'Colour'], '2026-10-05')
  expect(text).toContain('by = "maker_code"\nfrom = "Maker code"')
  expect(text).toMatch(/\[columns\.id\] .*\nfrom = "Name"\nmake = "slug"/)
  expect(text).toMatch(/\[columns\.length_mm\] .*\nfrom = "Length"/)
  expect(text).not.toContain('Colour')
  const prices = first_mapping(offers, ['Art.', 'Price'], '2026-10-05')
  expect(prices).toContain('by = "maker_code"\nfrom = "Art."')
  expect(prices).not.toContain('[columns.part]')
  // Where it comes from is not known: the form asks, and the mapping is right without it.
  expect(prices).not.toContain('seller')
  for (const each of [text, prices]) expect(() => parse(each)).not.toThrow()
})

it('reads the places out of a message', () => {
  const { said, problems } = problems_in('pasted:2:27: not a number; got "x,y"\nmapping:13: no such header\n2 complaints in all\n')
  expect(problems).toEqual([
    { place: 'pasted:2:27', line: 2, column: 27, text: 'not a number; got "x,y"' },
    { place: 'mapping:13', line: 13, text: 'no such header' }
  ])
  expect(said).toBe('2 complaints in all')
})
