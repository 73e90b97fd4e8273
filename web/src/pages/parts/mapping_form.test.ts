// A mapping in its form: hand-written texts and tables.
import { parse } from 'smol-toml'
import { expect, it } from 'vitest'
import type { TableSpec } from '../../lib/forms'
import { aliases_for, cells_under, columns_of, mapping_values, still_to_say, with_match, with_source, wrong_in } from './mapping_form'
import { first_mapping } from './mapping_text'

const column = (name: string, more: object = {}) => ({ name, type: 'text', required: false, meaning: `the ${name}`, ...more })
const offers: TableSpec = {
  name: 'offers', meaning: 'prices', kind: false, key_columns: 2,
  columns: [
    column('part', { refers: 'part', required: true }), column('stock'), column('seller', { required: true }), column('market', { required: true }),
    column('price', { type: 'money', required: true })
  ]
}
const say = (text: string) => {
  const values = mapping_values(text)
  return values ? still_to_say(offers, values) : null
}

it('begins with what the table calls by its name or as lists do, and says what is missing', () => {
  const text = first_mapping(offers, ['Part', 'Shop', 'Price', 'Colour'], '2026-10-05')
  expect(parse(text)).toMatchObject({ match: { by: 'id', from: 'Part' }, columns: { seller: { from: 'Shop' }, price: { from: 'Price' } } })
  // No section without a source: the service would refuse the mapping as it stands.
  expect(text).not.toContain('columns.market')
  expect(say(text)).toEqual(['market'])
  expect(say(first_mapping(offers, [], '2026-10-05'))).toEqual(['part', 'seller', 'market', 'price'])
})

it('writes a choice into the text, and takes it out', () => {
  const text = first_mapping(offers, ['Part', 'Shop', 'Price'], '2026-10-05')
  const same = with_source(text, 'market', { constant: 'IE' })?.text ?? ''
  expect(parse(same)).toMatchObject({ columns: { market: { constant: 'IE' } } })
  expect(say(same)).toEqual([])
  const from = with_source(same, 'market', { from: 'Land' })?.text ?? ''
  expect(mapping_values(from)?.sources.get('market')).toEqual({ from: 'Land' })
  expect(parse(from)).not.toHaveProperty('columns.market.constant')
  expect(say(with_source(from, 'market', null)?.text ?? '')).toEqual(['market'])
  expect(columns_of(offers).map(({ name }) => name)).toEqual(['seller', 'market', 'price', 'stock'])
})

it('finds parts by names that exactly one of them has', () => {
  const pasted = 'Part\tPrice\nBrook 50\t5\n"Heath, 6"\t7\nTwice\t8\nbrook 50\t9\nNobody\t1\n'
  const cells = cells_under(pasted, 'Part')
  expect(cells).toEqual(['Brook 50', 'Heath, 6', 'Twice', 'brook 50', 'Nobody'])
  const parts = [{ id: 'b-50', name: 'Brook 50' }, { id: 'h-6', name: 'Heath, 6' }, { id: 't-1', name: 'Twice' }, { id: 't-2', name: 'Twice' }]
  const aliases = aliases_for(cells, parts)
  expect(aliases).toEqual([['Brook 50', 'b-50'], ['Heath, 6', 'h-6'], ['brook 50', 'b-50']])
  const text = with_match(first_mapping(offers, ['Part'], '2026-10-05'), { by: 'alias', from: 'Part' }, aliases)?.text ?? ''
  expect(parse(text)).toMatchObject({ match: { by: 'alias', from: 'Part' }, aliases: { 'Brook 50': 'b-50', 'Heath, 6': 'h-6' } })
})

it('does not call wrong what is still to be said', () => {
  const told = { place: '', line: 9, text: 'an amount without its currency; expected [columns.market] as well, perhaps a constant; got "price"' }
  const other = { place: '', line: 2, text: 'no such key' }
  const text = first_mapping(offers, ['Part', 'Shop', 'Price'], '2026-10-05')
  const wrong = (of: string) => {
    const values = mapping_values(of)
    return values && wrong_in([told, other], offers, values)
  }
  expect(wrong(text)).toEqual([other])
  expect(wrong(with_source(text, 'market', { constant: 'IE' })?.text ?? '')).toEqual([told, other])
})
