// Power as rows: held against what `rigproof power` prints for the same numbers, and by hand.
import { expect, it } from 'vitest'
import type { Claim } from '../../lib/json/common'
import type { PowerJson, Wall } from '../../lib/json/power'
import { sweep_words, value_at, warming_words, window_words } from './picture_words'
import { bare_words, cable_words, plug_rows, rated_w, supply_rows, wall_words, window_rows, year_words } from './power_rows'

const wall: Wall = {
  market: 'IE', mains: '230 V', mains_stated: true, kwh_price: 0.312, by_load: [], only_bounded: [],
  kwh_per_year: { value: 540.3, low: 513.5, high: 567.15, unit: 'kWh' },
  cost_per_year: { value: 168.5735, low: 160.2111, high: 176.9496, unit: 'EUR' },
  cost_beside_other: { value: -53.4661, low: -67.2, high: -38.9, unit: 'EUR' }, odds_cheaper: 1
}
const claim = (id: string, where: string, value: number): Claim => ({
  id, where, load: 'everything', grade: 'must', subjects: [], statement: '', verdict: 'holds', basis: 'part data', source: '',
  remedy: '', missing: [], value: { value, unit: 'W' }
})
const power: PowerJson = {
  schema: 'rigproof.power/1', build: 'b', supply: 'Small', loads: ['idle', 'title', 'all-core', 'everything'], parts: [], walls: [wall], notes: [],
  sums: [{}, { value: 487.1475, low: 474, high: 498.5, unit: 'W' }, { value: 165, unit: 'W' }, { value: 509.57, unit: 'W' }],
  share_of_rating: [{}, { value: 1.08255, low: 1.05, high: 1.11, unit: '' }, {}, {}],
  plugs: [{ plug: '3 x pcie8', feeds: 'Card', contact: { value: 2.898, low: 2.806, high: 2.99, unit: 'A' }, contact_at_most_a: 8 }],
  claims: [claim('power.excursions', '1 ms', 540), claim('power.sustained', '', 510)]
}

const without = <T extends object>(of: T, ...keys: Array<keyof T & string>) =>
  Object.fromEntries(Object.entries(of).filter(([key]) => !(keys as string[]).includes(key))) as T

it('finds the rating behind the shares', () => {
  expect(rated_w(power)).toBe(450)
  expect(rated_w({ ...power, share_of_rating: [] })).toBeUndefined()
})

it('makes a bar of each load case, unknown ones too', () => {
  const rows = supply_rows(power)
  expect(rows.map(({ name, load, limit }) => [name, load?.value, limit])).toEqual([
    ['idle', undefined, 450], ['title', 487.1475, 450], ['all-core', 165, 450], ['everything', 509.57, 450]
  ])
})

it('takes the middle of a peak from its claim, never from its ends', () => {
  const rows = window_rows(power, [
    { name: '100 us' },
    { name: '1 ms', low_w: 490, high_w: 589, allowed_w: 500 },
    { name: '10 ms', low_w: 400, high_w: 500, allowed_w: 600 },
    { name: 'sustained', low_w: 510, high_w: 510, allowed_w: 600 }
  ])
  expect(rows[0]).toEqual({ name: '100 us', told: 'neither load nor limit known' })
  expect(rows[1]).toMatchObject({ value: 540, low: 490, high: 589, limit: 500, tight: true, told: '490 to 589 W of 500 W: up to 89 W over' })
  expect(rows[2]?.value).toBeUndefined()
  expect(rows[3]).toEqual({ name: 'sustained', told: '510 W of 600 W: 90 W left', value: 510, limit: 600, limit_told: '600 W' })
})

it('tells windows as the published sheet does', () => {
  expect(window_words({ name: 'x', allowed_w: 900 })).toBe('load not known, 900 W allowed')
  expect(window_words({ name: 'x', low_w: 10, high_w: 20 })).toBe('10 to 20 W, no limit stated')
  expect(window_words({ name: 'x', low_w: 30, high_w: 40, allowed_w: 25 })).toBe('30 to 40 W of 25 W: 15 W over')
})

it('tells tables, plugs and walls', () => {
  expect(bare_words({ value: 13, low: 11.83, high: 14.17, unit: 'W' })).toBe('11.8 to 14.2')
  expect(bare_words({ value: 28, unit: 'W' })).toBe('28')
  expect(bare_words({ value: 0.5, low: 0.4999, high: 0.5001, unit: '' }, 100)).toBe('50')
  expect(bare_words({})).toBe('?')
  expect(plug_rows(power)[0]).toMatchObject({ name: '3 x pcie8 to Card', limit: 8 })
  expect(power.plugs[0] && cable_words(power.plugs[0])).toBe('its cable is not known')
  expect(wall_words(wall)).toBe('in IE, certified at 230 V')
  expect(wall_words({ ...wall, mains: '115 V', mains_stated: false })).toBe('in IE, certified at 115 V (the brief does not state the mains voltage)')
})

it('tells a year beside another build', () => {
  expect(year_words(wall, 'Chair')).toBe(
    '540 kWh (514 to 567) at 0.312 EUR a kWh, 168.57 EUR (160.21 to 176.95); beside Chair: 53.47 EUR less (costs less in 100 % of the cases)'
  )
  const alone = without(wall, 'cost_beside_other', 'odds_cheaper')
  expect(year_words(alone, '')).toBe('540 kWh (514 to 567) at 0.312 EUR a kWh, 168.57 EUR (160.21 to 176.95)')
  expect(year_words({ ...alone, cost_beside_other: { value: 0, unit: 'EUR' } }, 'Chair')).toContain('beside Chair: the same')
  expect(year_words(without(alone, 'kwh_per_year'), '')).toBe('')
})

it('reads courses on straight lines and says where they end', () => {
  expect(value_at([10, 20], [1, 3], 15)).toBe(2)
  expect(value_at([10, 20], [1, 3], 20)).toBe(3)
  expect(value_at([10, 20], [1, 3], 9)).toBeNull()
  expect(value_at([10, 20], [1, 3], 21)).toBeNull()
  const sweep = {
    load: 'title', notes: [], speed_percent: [20, 40], temperatures: [{ name: 'card', temp_c: { value: [80, 70], low: [78, 69], high: [82, 71] } }],
    noise_dba: { value: [20, 30] }
  }
  expect(sweep_words(sweep, 30)).toBe('With all fans at 30 % of full speed: card 75 °C (73.5 to 76.5), noise 25 dB(A).')
  expect(sweep_words(sweep, 10)).toBe('')
  const warming = { load: 'title', notes: [], time_s: [0, 600], curves: [{ name: 'card', temp_c: [23, 90], limit_c: 88, settled_s: 500 }] }
  expect(warming_words(warming)).toBe('After 10 min: card 90 °C, 2 K over of 88 °C, settled after 8.3 min.')
  expect(warming_words({ ...warming, curves: [] })).toBe('No temperatures are known.')
})
