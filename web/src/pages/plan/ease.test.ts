// Expectations are written by hand, after docs/brief.md.
import { expect, test } from 'vitest'
import { eased_text } from './ease'

const brief = `[brief]
name = "x"
[[markets]]
market = "IE"
budget = "1500.00"
[[markets]]
market = "GB"
budget = "1320.00"  # firm
[limits]
volume_l = { at_most = 12 }
noise_dba = { at_most = 29, load = "title", distance_m = 1 }
[musts]
memory_gb = 64
`
const says = { line: 1, says: '' }

test('a budget is eased in its own market, exactly', () => {
  expect(
    eased_text(brief, { ...says, path: 'markets.GB.budget', relaxation: { how: 'value', says: '', money_to: { currency: 'GBP', minor: 140001 } } })
  ).toBe(brief.replace('"1320.00"', '"1400.01"'))
})
test('a limit keeps its load and its distance', () => {
  expect(eased_text(brief, { ...says, path: 'limits.noise_dba', relaxation: { how: 'value', says: '', value_to: 31.5, unit: 'l' } })).toBe(
    brief.replace('at_most = 29', 'at_most = 31.5')
  )
})
test('a must is one number', () => {
  expect(eased_text(brief, { ...says, path: 'musts.memory_gb', relaxation: { how: 'value', says: '', value_to: 32, unit: 'GiB' } })).toBe(
    brief.replace('memory_gb = 64', 'memory_gb = 32')
  )
})
test('what has no such place is left alone', () => {
  expect(eased_text(brief, { ...says, path: 'titles.none.floor_fps', relaxation: { how: 'value', says: '', value_to: 1 } })).toBeNull()
  expect(eased_text(brief, { ...says, path: 'musts.wifi', relaxation: { how: 'drop', says: '' } })).toBeNull()
})
