// Hand-made claims: which figure of a part decides, and which parts meet it, by hand.
import { expect, it } from 'vitest'
import type { Claim, WorkingCell } from '../../lib/json/common'
import { figure_asks, figure_words, figures_in, figures_of, meets, short_of } from './figures'

const cell = (table: string, row: string, column: string, value: number, unit = 'mm'): WorkingCell => ({
  part: '', meaning: '', table, row, column, value: { value, unit }, certainty: '', source: ''
})
const claim = (id: string, verdict: Claim['verdict'], value: number, limit: Claim['limit'], cells: WorkingCell[], spread = {}): Claim => ({
  id, grade: 'must', where: '', subjects: [], load: '', statement: 'It fits.', verdict, basis: 'part data', source: '', remedy: '', missing: [],
  value: { value, unit: limit && 'unit' in limit ? limit.unit : '', ...spread }, margin_frac: -0.1, ...(limit ? { limit } : {}),
  working: { equation: '', cells, cells_left_out: 0 }
})
const cells = [
  cell('gpu', 'card', 'height_mm', 137), cell('gpu', 'card', 'plug_bend_mm', 33), cell('case_clearances', 'slim/card-height/always', 'by_mm', 149)
]
const plug = claim('fit.plug-room', 'fails', 170, { relation: 'at_most', value: 149, unit: 'mm' }, cells, { low: 168, high: 172 })
const figure_of = (...asked: Parameters<typeof figures_of>) => figures_of(...asked)[0] ?? null
const length = claim('fit.card-length', 'fails', 300, { relation: 'at_most', value: 280, unit: 'mm' }, [
  cell('gpu', 'card', 'length_mm', 300), cell('case_clearances', 'slim/card-length/always', 'by_mm', 280)
])

it('asks of what sets the limit as much as the whole of what is likely', () => {
  const figure = figure_of([plug], 'case', 'slim')
  expect(figure).toMatchObject({ table: 'case_clearances', column: 'by_mm', within: ['card-height', 'always'], needs: { relation: 'at_least', value: 172 } })
  expect(figure && figure_asks(figure)).toBe('“It fits” fails: it takes at least 172 mm of room (card height).')
})
it('asks of what is limited no more than the limit', () => {
  const figure = figure_of([length], 'gpu', 'card')
  expect(figure?.needs).toEqual({ relation: 'at_most', value: 280 })
  const advice = claim('power.supply-advice', 'fails', 500, { relation: 'at_least', value: 750, unit: 'W' }, [
    cell('psu', 'small', 'rated_power_w', 500, 'W'), cell('gpu', 'card', 'supply_advice_w', 750, 'W')
  ])
  expect(figure_of([advice], 'psu', 'small')?.needs).toEqual({ relation: 'at_least', value: 750 })
  expect(figure_of([advice], 'gpu', 'card')?.needs).toEqual({ relation: 'at_most', value: 500 })
})
it('judges by no figure that is one of several, and asks nothing where all holds or nothing is numbered', () => {
  expect(figure_of([plug], 'gpu', 'card')).toBeNull()
  const sum = claim('fit.sum', 'fails', 170, { relation: 'at_most', value: 149, unit: 'mm' }, [cell('gpu', 'card', 'height_mm', 137)])
  expect(figure_of([sum], 'gpu', 'card')).toMatchObject({ column: 'height_mm', name: 'height' })
  expect(figure_of([sum], 'gpu', 'card')?.needs).toBeUndefined()
  expect(figure_of([{ ...length, verdict: 'holds' }], 'gpu', 'card')).toBeNull()
  expect(figure_of([plug], 'psu', 'other')).toBeNull()
  const modelled = claim('air.pressure', 'fails', -0.4, { relation: 'at_least', value: 8, unit: 'Pa' }, [cell('case', 'slim', 'filter_pa', 8, 'Pa')])
  expect(figure_of([modelled, { ...modelled, id: 'power.x', basis: 'model' }], 'case', 'slim')).toBeNull()
  const none = claim('fit.x', 'fails', 3, { relation: 'at_most', value: 0, unit: 'mm' }, [cell('case_mounts', 'slim/top', 'gap_mm', 0)])
  expect(figure_of([none], 'case', 'slim')).toBeNull()
})
it('prefers what can be judged to what is only shown', () => {
  const sum = claim('fit.a', 'fails', 170, { relation: 'at_most', value: 10, unit: 'mm' }, [cell('gpu', 'card', 'height_mm', 137)])
  expect(figure_of([{ ...sum, margin_frac: -16 }, length], 'gpu', 'card')?.claim.id).toBe('fit.card-length')
})
it('shows each figure once, at most three, and counts what a part is short of', () => {
  const volume = claim('fit.case-volume', 'fails', 40, { relation: 'at_most', value: 12, unit: 'l' }, [cell('case', 'slim', 'volume_l', 40, 'l')])
  const figures = figures_of([plug, volume, { ...volume, where: 'again' }], 'case', 'slim')
  expect(figures.map(({ name }) => name).sort()).toEqual(['room (card height)', 'volume'])
  const at = figures.map(({ name }) => (name === 'volume' ? 8 : 100))
  expect([short_of(figures, at), short_of(figures, [undefined, undefined]), short_of([], [])]).toEqual([1, 2, 0])
  const many = ['a_mm', 'b_mm', 'c_mm', 'd_mm'].map((column, i) =>
    claim(`fit.${column}`, 'fails', 10 + i, { relation: 'at_most', value: 5, unit: 'mm' }, [cell('case', 'slim', column, 10 + i)])
  )
  expect(figures_of(many, 'case', 'slim')).toHaveLength(3)
})
it('reads it off the rows that are of the very thing, wherever columns stand', () => {
  const figure = figure_of([plug], 'case', 'slim')
  if (!figure) throw new Error('no figure')
  const table = {
    columns: ['limits', 'case', 'by_mm', 'when'],
    rows: [['card-height', 'slim', '149', 'always'], ['card-height', 'wide', '180', 'always'], ['card-height', 'wide', '20', 'side'], ['card-length', 'wide', '400', 'always'], ['card-height', 'mum', '', 'always']]
      .map((row) => ({ cells: row }))
  }
  const found = figures_in(table, 'case', figure)
  expect([...found]).toEqual([['slim', 149], ['wide', 180]])
  expect(['slim', 'wide', 'mum'].map((part) => meets(figure, found.get(part)))).toEqual([false, true, null])
  expect(['slim', 'wide', 'mum'].map((part) => figure_words(figure, found.get(part)))).toEqual([
    'room (card height) 149 mm: too little', 'room (card height) 180 mm: enough', 'room (card height) not stated'
  ])
})
