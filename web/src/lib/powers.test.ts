import { expect, it } from 'vitest'
import { with_powers } from './powers'

it('finds the numbers whose exponent is set', () => {
  expect(with_powers('About 570 billion of 1.5e20 builds (90 %: 9.8e15 to 1.1e16).')).toEqual([
    'About 570 billion of ', { digits: '1.5', exponent: '20' }, ' builds (90 %: ', { digits: '9.8', exponent: '15' }, ' to ',
    { digits: '1.1', exponent: '16' }, ').'
  ])
  expect(with_powers('2.0e18')).toEqual([{ digits: '2.0', exponent: '18' }])
  expect(with_powers('All of 1.5e20.')).toEqual(['All of ', { digits: '1.5', exponent: '20' }, '.'])
})

it('leaves names and other numbers alone', () => {
  for (const text of ['', 'at most 1,050.50 EUR', 'the case b-1.5e20', 'x1.5e20', '1.5e20-mini', '11.5e20', '1.5e200', '1.5e20.1', '8.1 million'])
    expect(with_powers(text)).toEqual(text ? [text] : [])
})
