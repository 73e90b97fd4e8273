// Expectations are worked by hand from the rules of number writing, ISO 4217 and the sheet's words.
import { describe, expect, it } from 'vitest'
import type { Claim } from './json/common'
import { fixed, grouped, minor_words, readable } from './numbers'
import {
  change_words, counted, least_step, limit_words, long_date, margin_words, measured_words,
  money_words, odds_words, outcome_words, parse_amount, plain_amount, room_words, share_words,
  signed_money_words, to_do_words, value_words, verdict_counts, with_unit
} from './words'

function claim(over: Partial<Claim> = {}): Claim {
  return {
    id: 'fit.test', grade: 'must', where: '', subjects: [], load: '', statement: 'It fits.',
    verdict: 'thin', basis: 'part data', source: 'a drawing', remedy: '', missing: [], ...over
  }
}
const with_margin = (value: number, unit: string, relation: 'at_most' | 'at_least' = 'at_most') =>
  claim({ margin: { value, unit }, margin_frac: value / 100, limit: { relation, value: 100, unit } })

describe('numbers', () => {
  it('round to significant digits and drop zeros behind', () => {
    expect(readable(0)).toBe('0')
    expect(readable(16.666)).toBe('16.7')
    expect(readable(5.4)).toBe('5.4')
    expect(readable(0.12345, 4)).toBe('0.1235')
    expect(readable(-0.00001, 1)).toBe('-0.00001')
    expect(readable(Number.NaN)).toBe('?')
  })
  it('put an exact half to the even digit, and only an exact one', () => {
    expect(fixed(2.5, 0)).toBe('2')
    expect(fixed(3.5, 0)).toBe('4')
    expect(fixed(166.5, 0)).toBe('166')
    expect(fixed(0.125, 2)).toBe('0.12')
    expect(fixed(0.375, 2)).toBe('0.38')
    expect(fixed(2.675, 2)).toBe('2.67') // as a double it is 2.67499999...
    expect(fixed(-0.04, 1)).toBe('0.0')
  })
  it('are grouped from five digits on', () => {
    expect(grouped('1234')).toBe('1234')
    expect(grouped('12345')).toBe('12,345')
    expect(grouped('-1234567.125')).toBe('-1,234,567.125')
  })
})

describe('money', () => {
  it('is written from minor units with the digits of ISO 4217', () => {
    expect(money_words({ currency: 'EUR', minor: 135000 })).toBe('1,350.00 EUR')
    expect(money_words({ currency: 'EUR', minor: 5 })).toBe('0.05 EUR')
    expect(money_words({ currency: 'EUR', minor: -5 })).toBe('-0.05 EUR')
    expect(money_words({ currency: 'JPY', minor: 12800 })).toBe('12,800 JPY')
    expect(money_words({ currency: 'KWD', minor: 1234567 })).toBe('1,234.567 KWD')
  })
  it('is exact where floating point is not', () => {
    expect(minor_words(999999999999999, 2)).toBe('9,999,999,999,999.99')
  })
  it('says changes with a sign or in words', () => {
    expect(signed_money_words({ currency: 'EUR', minor: 1200 })).toBe('+12.00 EUR')
    expect(signed_money_words({ currency: 'EUR', minor: 0 })).toBe('0.00 EUR')
    expect(change_words({ currency: 'GBP', minor: -350 })).toBe('3.50 GBP less')
    expect(change_words({ currency: 'GBP', minor: 0 })).toBe('the same')
  })
  it('is read only from what is an amount of its currency', () => {
    expect(parse_amount('1350', 'EUR')).toEqual({ currency: 'EUR', minor: 135000 })
    expect(parse_amount('0.29', 'EUR')).toEqual({ currency: 'EUR', minor: 29 })
    expect(parse_amount('-1.5', 'EUR')).toEqual({ currency: 'EUR', minor: -150 })
    expect(parse_amount('1.5', 'JPY')).toBeNull()
    expect(parse_amount('1,350', 'EUR')).toBeNull()
    expect(parse_amount('1e3', 'EUR')).toBeNull()
    expect(plain_amount({ currency: 'EUR', minor: 135000 })).toBe('1350.00')
  })
})

describe('quantities', () => {
  it('are told no finer than parts are made', () => {
    expect(least_step('mm')).toBe(0.1)
    expect(least_step('parsecs')).toBe(0)
    expect(value_words({ value: 5.4321, unit: 'mm' })).toBe('5.4 mm')
    expect(value_words({ value: 1999.6, unit: 'GB' })).toBe('2000 GB')
    expect(value_words({ value: 12.345, unit: 'EUR' })).toBe('12.35 EUR')
    expect(value_words({ value: 0.1234, unit: '' })).toBe('0.1234')
  })
  it('carry their interval', () => {
    expect(value_words({ value: 33.06, low: -0.04, high: 66.04, unit: 'dB(A)' })).toBe('33.1 dB(A) (0 to 66)')
    expect(value_words({ value: 3, low: 3, high: 3, unit: 'mm' })).toBe('3 mm')
    expect(value_words({ text: 'none' })).toBe('none')
  })
  it('speak of one plug and two plugs, and of degrees', () => {
    expect(with_unit(1, 'plugs')).toBe('1 plug')
    expect(with_unit(2, 'plugs')).toBe('2 plugs')
    expect(with_unit(61.26, 'degC')).toBe('61.3 °C')
  })
  it('are limited in words', () => {
    expect(limit_words({ relation: 'at_most', value: 34, unit: 'dB(A)' })).toBe('at most 34 dB(A)')
    expect(limit_words({ relation: 'one_of', text: 'sockets A and B' })).toBe('one of sockets A and B')
  })
})

describe('claims', () => {
  it('say the room that is left, over or short', () => {
    expect(room_words(with_margin(4.04, 'mm'))).toBe('4 mm left')
    expect(room_words(with_margin(-0.06, 'mm'))).toBe('0.1 mm over')
    expect(room_words(with_margin(-0.0039, 'mm'))).toBe('less than 0.1 mm over')
    expect(room_words(with_margin(-0.04, 'GB', 'at_least'))).toBe('less than 1 GB short')
    expect(room_words(with_margin(0, 'mm'))).toBe('exactly at the limit')
    expect(share_words(with_margin(-0.0039, 'mm'))).toBe('under 0.1 % of the limit')
  })
  it('put room, share and odds in one line', () => {
    expect(margin_words({ ...with_margin(4, 'mm'), odds: 0.861 })).toBe('4 mm left, 4 % of the limit, odds 0.86')
    expect(margin_words({ ...with_margin(4, 'mm'), odds: 1 })).toBe('4 mm left, 4 % of the limit')
    expect(margin_words(claim())).toBe('')
    expect(odds_words(0.995)).toBe('above 0.99')
    expect(odds_words(0.004)).toBe('below 0.01')
  })
  it('say what the draws say', () => {
    expect(outcome_words(claim({ verdict: 'unknown', limit: { relation: 'at_most', value: 3, unit: 'mm' } }))).toBe(
      'There is no verdict: something it needs is not known. The limit is at most 3 mm.'
    )
    expect(outcome_words(claim({ odds: 1, verdict: 'holds' }))).toBe('It holds in every draw: holds.')
  })
  it('say what to do only where something is to be done', () => {
    expect(to_do_words(claim({ verdict: 'holds', remedy: 'rest' }))).toBe('')
    const swap = { kind: 'fan', out: '', in: 'quiet-fan', count: 2 }
    expect(to_do_words(claim({ swap }))).toBe('add 2 of quiet-fan')
    expect(to_do_words(claim({ swap: { ...swap, out: 'loud-fan', count: 1 } }))).toBe('take quiet-fan instead of loud-fan')
    expect(to_do_words(claim({ swap: { ...swap, out: 'loud-fan', in: '' } }))).toBe('leave out loud-fan')
  })
  it('are counted by verdict, those that only tell apart', () => {
    const tell = claim({ grade: 'tells', verdict: 'fails' })
    expect(verdict_counts([claim(), claim({ verdict: 'holds' }), claim({ verdict: 'holds' }), tell])).toBe(
      '1 is thin, 2 hold; told beside: 1 fails'
    )
  })
  it('name what was measured in the unit of the value', () => {
    const measured = { value: 32.3, log: 'noise.csv', date: '2026-10-09', settled: 'confirmed' as const }
    expect(measured_words(claim({ value: { value: 32, unit: 'dB(A)' }, measured }))).toBe(
      'measured 32.3 dB(A) on 2026-10-09: confirmed'
    )
    expect(measured_words(claim({ value: { value: 128.5, unit: 'mm' }, measured: { value: 128.5, log: '', settled: '' } }))).toBe(
      'measured 128.5 mm'
    )
  })
})

describe('small words', () => {
  it('count and date', () => {
    expect(counted(1, 'part')).toBe('1 part')
    expect(counted(12345, 'part')).toBe('12,345 parts')
    expect(long_date('2026-10-01')).toBe('1 October 2026')
    expect(long_date('soon')).toBe('soon')
  })
})
