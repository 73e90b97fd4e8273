// Hand-made claims and texts; what is expected was counted by hand.
import { expect, it } from 'vitest'
import type { Claim, Missing } from '../../lib/json/common'
import { changed_query, kept_query } from '../build/address'
import { absent_cells, cell_path, settles_words } from '../build/look_up'
import { measurable_cells, measured_in, read_line, read_number, unsure_cell, with_measured } from '../build/measured'
import { addable_kinds, placed_parts } from '../build/places'
import { tried_words, with_remedy } from '../build/tried'
import { left_out_words, turned_between, turned_words } from '../build/turned'

const claim = (id: string, verdict: Claim['verdict'], more: Partial<Claim> = {}): Claim => ({
  id, grade: 'must', where: '', subjects: [], load: '', statement: `${id}.`, verdict, basis: 'part data', source: '',
  remedy: '', missing: [], ...more
})
const cell = (row: string, column = 'length_mm', table = 'gpu'): Missing => ({ table, row, column, how: 'look up' })

it('ranks absent cells by their share of the verdicts that wait for them', () => {
  const claims = [
    claim('a', 'unknown', { missing: [cell('x')] }),
    claim('b', 'unknown', { missing: [cell('x'), cell('y'), cell('x')] }),
    claim('c', 'unknown', { missing: [cell('y'), cell('z')] }),
    claim('d', 'unknown', { missing: [cell('y'), cell('z')] }),
    claim('e', 'holds', { missing: [cell('w')] })
  ]
  const found = absent_cells(claims)
  expect(found.map(({ row, named, alone, share }) => [row, named, alone, share])).toEqual([
    ['x', 2, 1, 1.5], // one alone and half of another
    ['y', 3, 0, 1.5],
    ['z', 2, 0, 1]
  ])
  expect(found.map(settles_words)).toEqual([
    'settles 1 verdict by itself, and is one of several for 1 more',
    'one of several that 3 verdicts wait for',
    'one of several that 2 verdicts wait for'
  ])
})

it('leads to the cell in the parts table, or to the row that is missing', () => {
  expect(cell_path(cell('a/b c'))).toBe('/parts/gpu?row=a%2Fb+c&column=length_mm')
  expect(cell_path(cell('a', '*', 'offers'))).toBe('/parts/offers?row=a')
})

it('reads and writes lines of measured values', () => {
  expect(read_line('gpu,a,length_mm,320.5,1')).toEqual({
    line: 'gpu,a,length_mm,320.5,1', key: 'gpu,a,length_mm', table: 'gpu', row: 'a', column: 'length_mm',
    value: '320.5', half_width: '1'
  })
  expect(read_line('gpu,a,length_mm,320')?.half_width).toBe('')
  expect(read_line('gpu,a,length_mm')).toBeNull()
  expect(read_line('gpu,a,length_mm,1,2,3')).toBeNull()
  expect(with_measured(['gpu,a,length_mm,320', 'gpu,b,length_mm,9'], 'gpu,a,length_mm', '321', '0.2')).toEqual([
    'gpu,b,length_mm,9', 'gpu,a,length_mm,321,0.2'
  ])
  expect(['12', ' 12,5 ', '-0.5', '.5', '1e3', '', '1,2,3', 'x'].map(read_number)).toEqual([
    '12', '12.5', '-0.5', '.5', null, null, null, null
  ])
})

const working = (row: string, low?: number) => ({
  equation: '', cells_left_out: 0,
  cells: [
    { part: 'A card', meaning: 'length', table: 'gpu', row, column: 'length_mm', certainty: low ? 'plus-minus 2 mm' : '',
      source: '', value: { value: 320, unit: 'mm', ...(low ? { low, high: 640 - low } : {}) } },
    { part: '', meaning: 'price', table: 'offers', row, column: 'price', certainty: '', source: '', value: { value: 9, unit: 'EUR' } },
    { part: 'A card', meaning: 'plugs', table: 'gpu', row, column: 'plugs', certainty: '', source: '', value: { value: 2, unit: '' } },
    { part: 'A card', meaning: 'kind', table: 'gpu', row, column: 'kind', certainty: '', source: '', value: { text: 'long' } }
  ]
})

it('offers numbers of parts to be measured, those of the claims nearest to failing first', () => {
  const claims = [
    claim('far', 'holds', { margin_frac: 0.9, working: working('far-card') }),
    claim('near', 'thin', { margin_frac: 0.01, working: working('near-card', 318) }),
    claim('waits', 'unknown', { missing: [cell('other-card', 'height_mm'), cell('x', '*'), cell('y', 'price', 'offers')] })
  ]
  const cells = measurable_cells(claims)
  expect(cells.map(({ key, now, unit }) => [key, now, unit])).toEqual([
    ['gpu,near-card,length_mm', '320 mm (318 to 322), plus-minus 2 mm', 'mm'],
    ['gpu,other-card,height_mm', 'absent', ''],
    ['gpu,far-card,length_mm', '320 mm', 'mm']
  ])
  expect(claims.map(unsure_cell)).toEqual(['', 'gpu,near-card,length_mm', 'gpu,other-card,height_mm'])
  const keys = new Set(['gpu,near-card,length_mm'])
  expect(claims.map((each) => measured_in(each, keys).length)).toEqual([0, 1, 0])
  // Where the cell is the claim's own number, the ring stands in the bar.
  const own = working('near-card', 318)
  const settled = claim('near', 'holds', {
    working: { ...own, cells: own.cells.map((each) => ({ ...each, claimed: true as const })) },
    measured: { value: 320, log: '', settled: 'confirmed' }
  })
  expect(measured_in(settled, keys)).toEqual([])
  expect(measured_in({ ...settled, measured: undefined }, keys).length).toBe(1)
})

it('lists parts by where they are mounted', () => {
  const text = `name = "x"
case = "a-case"
cpu = "a-cpu"
storage = ["d1", { id = "d2", count = 2 }]
fan = [{ id = "f", count = 3 }]
[mounts]
fan = "top"
d2 = "2"
`
  expect(placed_parts(text).map(({ id, place, count, at }) => [id, place, count, at])).toEqual([
    ['a-cpu', 'processor socket', 1, ''],
    ['d1', 'drive sockets and cages', 1, ''],
    ['d2', 'drive sockets and cages', 2, '2'],
    ['a-case', 'around it all', 1, ''],
    ['f', 'case faces', 3, 'top']
  ])
  expect(addable_kinds(text)).toEqual(['board', 'cooler', 'memory', 'storage', 'gpu', 'fan', 'psu', 'other', 'display'])
  expect(placed_parts('no toml [')).toEqual([])
})

it('changes a query and keeps the rest of it', () => {
  const query = new URLSearchParams('brief=b&measured=1&measured=2&open=x')
  expect(changed_query(query, { open: null, measured: ['3', '4'] })).toBe('?brief=b&measured=3&measured=4')
  expect(changed_query(new URLSearchParams('a=1'), { a: null })).toBe('')
  expect(kept_query(query, ['brief', 'measured'], { at: 'k' })).toBe('?brief=b&measured=1&measured=2&at=k')
})

it('tells what turned between two sets of claims, and leaves out what only one of them says and holds', () => {
  const first = [claim('a.same', 'fails'), claim('b.mended', 'fails'), claim('c.worse', 'holds'), claim('d.gone', 'holds')]
  const second = [claim('a.same', 'fails'), claim('b.mended', 'thin'), claim('c.worse', 'unknown'), claim('e.new', 'fails')]
  const turned = turned_between(first, second)
  expect(turned.mended.map(({ id }) => id)).toEqual(['b.mended'])
  expect(turned.worse.map(({ id }) => id)).toEqual(['c.worse', 'e.new'])
  expect(turned.first.map(({ id }) => id)).toEqual(['a.same', 'b.mended', 'c.worse'])
  expect(turned.left_out).toBe(1)
  expect(turned_words(turned)).toBe('Better: b.mended. Worse: c.worse; e.new.')
  expect(left_out_words(turned)).toBe('1 claim that holds speaks of one of the two alone and is left out here.')
  expect(turned_words(turned_between(first, first))).toBe('No verdict turned.')
})

it('puts a remedy into the text and says what was done', () => {
  const name = (_: string, id: string) => ({ loud: 'Loud One', quiet: 'Quiet One' })[id] ?? id
  const swap = { kind: 'fan', out: 'loud', in: 'quiet', count: 2 }
  expect(with_remedy('name = "x"\nfan = "loud"\n', { swap })).toBe('name = "x"\nfan = [{ id = "quiet", count = 2 }]\n')
  expect(tried_words({ swap }, name)).toBe('Took 2 pieces of Quiet One instead of Loud One.')
  expect(tried_words({ swap: { ...swap, in: '' } }, name)).toBe('Left out Loud One.')
  expect(tried_words({ swap: { ...swap, out: '', count: 1 } }, name)).toBe('Added Quiet One.')
  expect(tried_words({ adjustment: { fans_at: 'top', case_speed_percent: 60, cooler_speed_percent: 40 } }, name)).toBe(
    "Mounted the fans at top and set the case's fans to 60 % and set the cooler's to 40 %."
  )
  expect(with_remedy('name = "x"\nfan = "loud"\n', { adjustment: { fans_at: 'top' } })).toBe(
    'name = "x"\nfan = "loud"\n\n[mounts]\nfan = "top"\n'
  )
})
