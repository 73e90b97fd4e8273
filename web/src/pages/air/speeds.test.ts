// Fan speeds of an address, and as they are written into a build.
import { expect, it } from 'vitest'
import { read_toml } from '../../lib/toml_edit'
import { air_inputs, set_in, speeds_of, with_speeds, without_speeds, words_let_go } from './speeds'

const query = (text: string) => new URLSearchParams(text)

it('reads speeds and leaves out what is none', () => {
  expect(speeds_of(query('speed=60&cooler=50'))).toEqual({ chassis: 60, cooler: 50 })
  expect(speeds_of(query('load=title'))).toEqual({})
  for (const bad of ['9', '101', '1e1', '-20', '60.5', '', 'fast', '0060'])
    expect(speeds_of(query(`speed=${bad}`))).toEqual({})
  expect(speeds_of(query('speed=10&cooler=100'))).toEqual({ chassis: 10, cooler: 100 })
})

it('asks as the command line does', () => {
  expect(air_inputs('b', 'r', { chassis: 60 })).toEqual({ build: 'b', brief: 'r', speed: 60 })
  expect(air_inputs('b', '', { cooler: 40 })).toEqual({ build: 'b', cooler_speed: 40 })
})

const parts = 'name = "Chair" # mine\ncpu = "one"\n'
const set = `${parts}
[[fan_speeds]]
fans = "case"
follows = "gpu"
temp_c = 45
speed_percent = 35

[[fan_speeds]]
fans = "case"
follows = "gpu"
temp_c = 82.5
speed_percent = 100

[[fan_speeds]]
fans = "cooler"
follows = "cpu"
temp_c = 50
speed_percent = 30
`
const points = (text: string | null) =>
  ((read_toml(text ?? '')?.fan_speeds ?? []) as Array<Record<string, unknown>>).map(
    ({ fans, temp_c, speed_percent }) => `${String(fans)} ${String(temp_c)} ${String(speed_percent)}`
  )

it('sees which fans a build sets', () => {
  expect(set_in(parts)).toEqual({ chassis: false, cooler: false })
  expect(set_in(set)).toEqual({ chassis: true, cooler: true })
})

it('runs all fans together where only the case is set', () => {
  const text = with_speeds(set, { chassis: 60 })
  expect(points(text)).toEqual(['case 40 60', 'cooler 40 60'])
  expect(text?.startsWith(parts)).toBe(true)
})

it('leaves the case as the build says where only the cooler is set', () => {
  expect(points(with_speeds(set, { cooler: 55 }))).toEqual(['cooler 40 55', 'case 45 35', 'case 82.5 100'])
  expect(points(with_speeds(parts, { cooler: 55 }))).toEqual(['cooler 40 55'])
})

it('changes nothing where nothing is set, and takes all out where asked', () => {
  expect(with_speeds(set, {})).toBe(set)
  expect(points(without_speeds(set))).toEqual([])
  expect(read_toml(without_speeds(set) ?? '')).toEqual({ name: 'Chair', cpu: 'one' })
  expect(with_speeds('name = ', { chassis: 60 })).toBeNull()
})

it('calls the speed of fans that are let go common only where the other fans are let go as well', () => {
  const none = { chassis: false, cooler: false }
  for (const group of ['chassis', 'cooler'] as const) {
    expect(words_let_go(group, {}, none)).toMatch(/^quietest common speed/)
    expect(words_let_go(group, {}, { chassis: true, cooler: true })).toBe('as the build says')
  }
  expect(words_let_go('chassis', { cooler: 40 }, none)).toBe('quietest that keeps the limits')
  expect(words_let_go('chassis', {}, { chassis: false, cooler: true })).toBe('quietest that keeps the limits')
  expect(words_let_go('cooler', {}, { chassis: true, cooler: false })).toBe('quietest that keeps the limits')
  expect(words_let_go('cooler', { chassis: 60 }, none)).toBe("with the case's fans")
})
