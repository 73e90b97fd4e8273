// The words and rows of air: held against what `rigproof air` prints for the same numbers, and by hand.
import { expect, it } from 'vitest'
import type { AirJson, Load } from '../../lib/json/air'
import type { Claim } from '../../lib/json/common'
import { air_facts, apart_words, fan_cautions, held_back_words, load_words, lost_words, minutes_words, noise_rows, not_held_back_words, running_words, speed_words, temperature_rows, usual_load } from './air_words'

const claim = (id: string, load: string, value: number, unit: string): Claim => ({
  id, load, grade: 'must', where: '', subjects: [], statement: '', verdict: 'holds', basis: 'model', source: '',
  remedy: '', missing: [], limit: { relation: 'at_most', value, unit }
})
const load: Load = {
  load: 'title', known: true, speed_percent: 86.5234375, cooler_speed_percent: 86.5234375, speed_from: 'least', held_by: 'card',
  parts: [
    { what: 'Chip', temperature: { value: 53.99, low: 51.75, high: 56.45, unit: 'degC' }, power_w: 60, asked_w: 60 },
    { what: 'Card', temperature: { value: 83.17, low: 81.19, high: 85.53, unit: 'degC' }, power_w: 197, asked_w: 368, lost: { value: 46.5, low: 43.7, high: 49.4, unit: '%' } }
  ],
  followers: [{ what: 'hottest drive', temperature: { value: 68.29, low: 65.52, high: 71.21, unit: 'degC' } }],
  warm: [
    { what: 'processor', warm: { value: 431.68, low: 395.88, high: 479, unit: 's' }, rest: { value: 90, unit: 's' } },
    { what: 'card', warm: { value: 100, unit: 's' }, slows_after_s: 204 }
  ],
  upper_c: 33.97, lower_c: 37.27, exhaust: { value: 34.39, low: 33.75, high: 34.99, unit: 'degC' },
  through_m3_h: 89.428, changes_per_minute: 35.4, pressure_pa: -0.009969, by_fans_percent: 90.6,
  inlets: [{ where: 'front', flow_m3_h: 17.97, filtered: true }, { where: 'gaps', flow_m3_h: 1.1827, filtered: false }],
  stalled: true, blown_backwards: false,
  sources: [
    { what: 'Card', level: { value: 30, low: 28.65, high: 31.35, unit: 'dB(A)' } },
    { what: 'Fan', level: { value: -4.09, low: -5.44, high: -2.74, unit: 'dB(A)' } },
    { what: 'Supply' }
  ],
  noise: { value: 32.06, low: 31.17, high: 34.2, unit: 'dB(A)' }
}
const air: AirJson = {
  schema: 'rigproof.air/1', build: 'b', room_c: 23, distance_m: 1, missing: [], notes: [],
  loads: [{ load: 'idle', known: false }, load, { load: 'everything', known: false }],
  claims: [claim('air.cpu-temperature', 'all-core', 80, 'degC'), claim('air.gpu-temperature', 'title', 85, 'degC'), claim('air.drive-temperature', 'title', 72, 'degC'), claim('air.noise', 'title', 34, 'dB(A)')]
}

const without = <T extends object>(of: T, ...keys: Array<keyof T & string>) =>
  Object.fromEntries(Object.entries(of).filter(([key]) => !(keys as string[]).includes(key))) as T

it('tells durations as the command does', () => {
  expect(minutes_words({ value: 119.6, unit: 's' })).toBe('120 s')
  expect(minutes_words({ value: 431.68, low: 395.88, high: 479, unit: 's' })).toBe('7.2 min (6.6 min to 8 min)')
  expect(minutes_words({ value: 431.68, low: 431.5, high: 432, unit: 's' })).toBe('7.2 min')
})

it('tells speeds and why they are so', () => {
  expect(speed_words(35, 30)).toBe("case fans at 35 %, the cooler's at 30 % of full speed")
  expect(running_words(load)).toBe('fans at 87 % of full speed, held by the card')
  expect(running_words({ ...load, speed_from: 'full', speed_percent: 100, cooler_speed_percent: 100 })).toBe(
    'fans at 100 % of full speed, as no speed keeps every limit in every draw; worst: card'
  )
  expect(running_words({ ...without(load, 'held_by'), speed_from: 'set', speed_percent: 60, cooler_speed_percent: 60 })).toBe(
    'fans at 60 % of full speed, as they are set'
  )
  expect(running_words({ load: 'idle', known: false })).toBe('not known')
})

it('relates quieter speeds of their own to the common one, by the difference of their levels', () => {
  expect(apart_words(load, 1)).toBe('')
  const apart = { speed_percent: 77, cooler_speed_percent: 40, noise: { value: 33.2, unit: 'dB(A)' } }
  expect(apart_words({ ...load, noise: { value: 33.7, unit: 'dB(A)' }, apart }, 1)).toBe(
    "With speeds of their own: case fans at 77 %, the cooler's at 40 % of full speed: 33.2 dB(A) at 1 m, 0.5 dB(A) less than at their common speed; " +
      'every limit is kept so too. The claims are judged at the common speed.'
  )
  expect(apart_words({ ...without(load, 'noise'), apart }, 1)).not.toMatch(/less than/)
})

it('says a load aloud', () => {
  expect(load_words({ load: 'idle', known: false }, 1)).toBe('Load idle: not known.')
  expect(load_words(load, 1)).toBe(
    'Load title: fans at 87 % of full speed, held by the card. Chip 54 °C (51.8 to 56.5); Card 83.2 °C (81.2 to 85.5); ' +
      'hottest drive 68.3 °C (65.5 to 71.2); 32.1 dB(A) (31.2 to 34.2) at 1 m.'
  )
})

it('holds temperatures against the limits of this very load', () => {
  const [chip, card, drive, exhaust] = temperature_rows(air, load)
  expect(chip?.limit).toBeUndefined()
  expect(chip?.told).toBe('54 °C (51.8 to 56.5); 60 W')
  expect(card).toMatchObject({ limit: 85, limit_told: '85 °C', tight: true, told: '83.2 °C (81.2 to 85.5); 197 W of 368 W asked, at its limit' })
  expect(drive).toMatchObject({ name: 'hottest drive', limit: 72 })
  expect(drive?.tight).toBeUndefined()
  expect(exhaust?.name).toBe('air that leaves')
})

it('keeps the sources of noise in one order, also those that are not heard or not known', () => {
  const rows = noise_rows(air, load)
  expect(rows.map(({ name }) => name)).toEqual(['all together, at 1 m', 'Card', 'Fan', 'Supply'])
  expect(rows[0]).toMatchObject({ limit: 34, tight: true })
  expect(rows[2]).toEqual({ name: 'Fan', told: 'under 5 dB(A)', value: 0 })
  expect(rows[3]).toEqual({ name: 'Supply', told: 'no level is stated' })
  expect(noise_rows(air, without(load, 'noise'))[0]).toEqual({ name: 'all together, at 1 m', told: 'not known', limit: 34 })
})

it('tells where air goes', () => {
  expect(Object.fromEntries(air_facts(load))).toEqual({
    'Goes through': '89.4 m³/h, 35 changes a minute',
    Enters: 'front 18 m³/h through its filter; gaps 1.2 m³/h',
    'By fans': '91 % of what enters',
    Inside: '34 °C around the processor, 37 °C below the card',
    Leaves: 'at 34.4 °C (33.8 to 35)',
    Pressure: '0.01 Pa less inside than outside',
    Warm: 'processor after 7.2 min (6.6 min to 8 min), at rest again 90 s after the end; card after 100 s, slowing itself down from 3.4 min on'
  })
  expect(lost_words(load)).toEqual(['Card has to slow down because of heat: it must do without 46.5 % (43.7 to 49.4) of the power it asks for.'])
  expect(fan_cautions(load)).toHaveLength(1)
})

it('begins with the load whose noise is limited', () => {
  expect(usual_load(air)).toBe('title')
  expect(usual_load({ ...air, claims: [] })).toBe('everything')
})

it('says at the head what is at its limit under which loads, with how much, or that nothing is', () => {
  const part = (what: string, lost?: number) => ({ what, power_w: 1, asked_w: 1, ...(lost === undefined ? {} : { lost: { value: lost, unit: '%' } }) })
  const under = (name: string, parts: Load['parts']): Load => ({ load: name, known: true, ...(parts ? { parts } : {}) })
  const loads = [under('idle', [part('Chip', 0), part('Card')]), under('title', [part('Chip'), part('Card', 3)]), under('everything', [part('Chip', 0.04), part('Card', 12.5)])]
  expect(held_back_words({ loads })).toEqual([
    'Card has to slow down because of heat. Of the power it asks for it must do without 3 % under the load title and 12.5 % under the load everything.'
  ])
  const at_worst = { ...part('Card', 0), lost: { value: 0, low: 0, high: 2.2, unit: '%' } }
  expect(held_back_words({ loads: [under('title', [at_worst])] })[0]).toMatch(/do without up to 2.2 % at worst under the load title\.$/)
  expect(held_back_words({ loads: loads.slice(0, 1) })).toEqual([])
  expect(not_held_back_words({ loads: loads.slice(0, 1) })).toBe('No part has to slow down because of heat under any load.')
  expect(not_held_back_words({ loads: [...loads.slice(0, 1), { load: 'title', known: false }] })).toBe(
    'No part has to slow down because of heat under the load idle; of the rest nothing is known.'
  )
  expect(not_held_back_words({ loads: [{ load: 'title', known: false }] })).toBe('')
})
