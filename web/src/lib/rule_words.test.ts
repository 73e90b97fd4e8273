import { expect, it } from 'vitest'
import { claim_change_words, claim_name, equation_words, place_of_cell, rule_words, subject_names } from './rule_words'

it('calls rules by what they are about, and one it does not know by its own name', () => {
  expect(rule_words('fit.plug-room')).toBe("room for the card's plug")
  expect(rule_words('fit.case-volume')).toBe('case volume')
  expect(rule_words('later.some-new-rule')).toBe('some new rule')
  expect(claim_name({ id: 'power.excursions', where: '1 ms' })).toBe('short peaks of the card, 1 ms')
  expect(claim_name({ id: 'match.named-parts', where: 'some-fan-120' })).toBe('parts asked for by name, some fan 120')
})

it('tells how a verdict turned, also where one side makes no claim', () => {
  const change = { id: 'air.noise', where: '', load: '' }
  expect(claim_change_words({ ...change, from: { verdict: 'thin' }, to: { verdict: 'holds' } })).toBe('Noise: thin before, holds now.')
  expect(claim_change_words({ ...change, to: { verdict: 'holds' } })).toBe('Noise: holds; it did not arise before.')
  expect(claim_change_words({ ...change, from: { verdict: 'fails' } })).toBe('Noise: does not arise any more; fails before.')
})

it('leaves the numbers of equations out, and nothing else', () => {
  expect(equation_words('card height (plug at its end: length) + plug <= room, (T7)')).toBe('card height (plug at its end: length) + plug <= room')
  expect(equation_words('10 lg sum of 10^(level / 10) <= limit, (B10)')).toBe('10 lg sum of 10^(level / 10) <= limit')
})
it('names what a claim speaks of, as far as its working does', () => {
  const cell = { part: 'Some Card 7', meaning: '', table: 'gpu_inputs', row: 'some-card-7/pcie8', column: 'count', value: { value: 1, unit: '' }, certainty: '', source: '' }
  expect(subject_names({ subjects: ['some-card-7', 'wide-case'], working: { equation: '', cells: [cell], cells_left_out: 0 } })).toEqual(['Some Card 7', 'wide case'])
})

it('says where a cell stands without the names of files', () => {
  expect(place_of_cell({ table: 'gpu', row: 'some-card-7', column: 'height_mm' })).toBe('card some card 7: height')
  expect(place_of_cell({ table: 'gpu_inputs', row: 'some-card-7/12v-2x6', column: 'count' })).toBe('card inputs some card 7, 12v-2x6: count')
  expect(place_of_cell({ table: 'case_clearances', row: 'wide/card-height/always', column: 'by_mm' })).toBe('case clearances wide, card height, always: how much')
  expect(place_of_cell({ table: 'offers', row: 'some-card-7/bird-lane/GB/2026-09-26/new', column: 'warranty_months' })).toBe(
    'offer for some card 7 by bird lane in GB, seen 26 September 2026, new: warranty'
  )
  expect(place_of_cell({ table: 'gpu_inputs', row: 'some-card-7', column: '*' })).toBe('card inputs some card 7: a row of it')
  expect(place_of_cell({ table: 'board_m2', row: 'wide/3', column: '' })).toBe('M.2 socket of wide, 3')
})
