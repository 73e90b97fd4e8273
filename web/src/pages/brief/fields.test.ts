// Expectations are written by hand, after docs/brief.md.
import { expect, test } from 'vitest'
import { inline_literal, literal_of, name_words, objection, tidied } from './fields'

const spec = (type: 'number' | 'whole' | 'text', more = {}) => ({
  section: 'room', name: 'temp_c', type, required: false, meaning: '', min: -20, max: 60, ...more
})

test('what is typed is written as its type asks', () => {
  expect(literal_of('23', 'number')).toBe('23')
  expect(literal_of(' 0.67 ', 'number')).toBe('0.67')
  expect(literal_of('1e9', 'number')).toBeNull()
  expect(literal_of('2,5', 'number')).toBeNull()
  expect(literal_of('1500.00', 'money')).toBe('"1500.00"')
  expect(literal_of('2026-10-01', 'date')).toBe('2026-10-01')
  expect(literal_of('tomorrow', 'date')).toBeNull()
  expect(literal_of(true, 'flag')).toBe('true')
  expect(literal_of(['new', 'used'], 'choices')).toBe('["new", "used"]')
  expect(literal_of('say "x"\\', 'text')).toBe('"say \\"x\\"\\\\"')
})
test('bounds are told before anything is asked', () => {
  expect(objection('23', spec('number'))).toBe('')
  expect(objection('61', spec('number'))).toBe('expected at least -20 and at most 60')
  expect(objection('0', spec('number', { min: 0, more_than_min: true }))).toBe('expected more than 0 and at most 60')
  expect(objection('x', spec('whole'))).toBe('expected a whole number')
})
test('a unit is not said twice', () => {
  expect(name_words('mains_v')).toBe('mains')
  expect(name_words('kwh_price_night')).toBe('energy price night')
  expect(name_words('p99_frame_time_fps')).toBe('p99 frame time')
  expect(name_words('front_usb_c')).toBe('front usb c')
})
test('an inline table is put together of its pieces', () => {
  expect(inline_literal([['at_most', '34'], ['load', '"title"']])).toBe('{ at_most = 34, load = "title" }')
})

test('money and numbers may be typed as pages print them', () => {
  expect(literal_of('1,250', 'money')).toBe('"1250"')
  expect(literal_of(' 1,250.00 ', 'money')).toBe('"1250.00"')
  expect(literal_of('12\u2009345\u2009678.5', 'money')).toBe('"12345678.5"')
  expect(literal_of('1 250', 'money')).toBe('"1250"')
  expect(literal_of('36,500', 'whole')).toBe('36500')
  expect(objection('1,000', spec('number', { max: 2000 }))).toBe('')
  // Not grouping: what it means is not guessed.
  for (const text of ['1,25', '12,34,567', '0,250', '1,2500', '1.250,00', '12 34']) expect(tidied(text, 'money')).toBe(text)
  expect(tidied('1,250', 'text')).toBe('1,250')
})
test('codes of countries and currencies are written in capitals', () => {
  expect(literal_of(' gbp', 'currency')).toBe('"GBP"')
  expect(literal_of('gb', 'market')).toBe('"GB"')
  expect(literal_of('gb', 'text')).toBe('"gb"')
})
