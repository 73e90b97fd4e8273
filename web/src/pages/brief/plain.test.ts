// Expectations are written by hand; what the service says is quoted as it says it.
import { expect, test } from 'vitest'
import { values_of } from './brief_text'
import { around_place, at_of, is_unfilled, one_name, place_of_path, place_words, plain_problem, plain_refusal, plain_words, short_title, told_of } from './plain'

const text = `[brief]
name = "Window seat"
as_of = 2026-10-01

[[markets]]
market = "IE"
currency = "EUR"
budget = "a lot"

[[titles]]
title = "wide-fallow"
floor_fps = 45

[[titles]]
title = ""  # later

[limits]
supply_reserve_frac = 3
`
const values = values_of(text)
const title_name = (id: string) => (id === 'wide-fallow' ? 'Wide Fallow' : id)

test('a line leads to its field, by the words of the form', () => {
  const told = told_of({ place: 'x', line: 18, text: 'supply_reserve_frac: is out of bounds; expected 0 to 0.9; got "3"' }, text, values, title_name)
  expect(told).toEqual({
    place: { section: 'limits', key: 'supply_reserve_frac' }, where: 'Limits: supply reserve',
    says: 'is out of bounds; expected 0 to 0.9; got "3"', line: 18, unfilled: false
  })
  expect(told_of({ place: 'x', line: 12, text: 'no' }, text, values, title_name).where).toBe('What has to run, Wide Fallow: floor')
  expect(told_of({ place: 'x', line: 14, text: 'no' }, text, values).where).toBe('What has to run, a new title')
  expect(told_of({ place: 'x', line: 0, text: 'there is no market; expected at least one [[markets]]' }, text, values)).toMatchObject({
    place: null, where: 'The brief', says: 'there is no market; expected at least one “Markets and money”'
  })
})
test('a title nobody has chosen yet is to be chosen, not wrong', () => {
  const says = 'title: no such title in the catalog; expected one title such as slow-tide, gravel-nine'
  expect(told_of({ place: 'x', line: 15, text: says }, text, values)).toMatchObject({
    where: 'What has to run, a new title: title', says: 'choose a title', unfilled: true
  })
  expect(is_unfilled(text, 15)).toBe(true)
  expect(is_unfilled(text, 10)).toBe(false)
})
test('of a text that is no TOML only the line is known', () => {
  expect(told_of({ place: 'x', line: 3, text: 'not TOML' }, '[brief\n', null)).toMatchObject({ place: null, where: 'line 3' })
})
test('paths of answers lead to fields', () => {
  if (!values) throw new Error('it is TOML')
  expect(place_of_path('titles.wide-fallow.floor_fps', values)).toEqual({ section: 'titles', index: 0, key: 'floor_fps' })
  expect(place_of_path('markets.IE.budget', values)).toEqual({ section: 'markets', index: 0, key: 'budget' })
  expect(place_of_path('lone_offers_not_older_than_days', values)).toEqual({ section: 'brief', key: 'lone_offers_not_older_than_days' })
  expect(place_of_path('display', values)).toEqual({ section: 'display' })
  expect(place_words(place_of_path('limits.noise_dba', values), values)).toBe('Limits: Noise')
  expect(place_words(place_of_path('keep.gpu', values), values)).toBe('Already there: card')
  expect(at_of({ section: 'titles', index: 1, key: 'floor_fps' })).toBe('titles.1.floor_fps')
  expect(one_name('markets', {})).toBe('a new market')
})
test('names of the file become names of the form', () => {
  expect(plain_words('what [limits] and the sheet call it')).toBe('what “Limits” and the sheet call it')
  expect(plain_words('Of these a plan counts saved_frac; it names the others')).toBe('Of these a plan counts “money saved”; it names the others')
  expect(plain_words('a drive of at most 70 degC')).toBe('a drive of at most 70 °C')
  expect(plain_words('an id of titles.csv')).not.toContain('csv')
  expect(plain_problem('no such case in the catalog; expected one case id such as a-b, c-d, ...; got "tin"')).toBe(
    'the catalog has no case called "tin": choose one by its name'
  )
})
test('a sentence that names a line leads to its field', () => {
  expect(around_place('The budget (line 8) stands in the way: without it more.', text)).toEqual({
    before: 'The budget', place: { section: 'markets', index: 0, key: 'budget' }, after: ' stands in the way: without it more.'
  })
  expect(around_place('Several stand against each other. `rigproof plan` says which.', text).before).toBe(
    'Several stand against each other. The plan says which.'
  )
})
test('a title goes by the name of the game alone where that says which', () => {
  const titles = [{ id: 'a', name: 'Ferry (river; full)' }, { id: 'b', name: 'Mangle (low)' }, { id: 'c', name: 'Mangle (high)' }]
  expect(short_title(titles, 'a')).toBe('Ferry')
  expect(short_title(titles, 'b')).toBe('Mangle (low)')
  expect(short_title(titles, 'gone')).toBe('gone')
})

test('says in the words of the form that a market has offers in another currency', () => {
  const refused = 'offers.csv:3: the offer is in GBP, but Quiet desk box:6 states EUR for market GB; 582 such offers'
  expect(plain_refusal(refused)).toBe(
    '582 offers in GB are in GBP, but the brief counts money there in EUR: write GBP as the currency of GB.'
  )
  expect(plain_refusal('offers.csv:3: the offer is in GBP, but x:6 states EUR for market GB')).toContain('An offer in GB is in GBP')
  expect(plain_refusal('something else')).toBe('something else')
})
