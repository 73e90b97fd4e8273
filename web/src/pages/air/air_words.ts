// What the page says of air under one load: the words of `rigproof air`, and rows for its bars.
import type { BarRow } from '../../chart/bar_row'
import type { AirJson, Load } from '../../lib/json/air'
import type { Claim, Quantity } from '../../lib/json/common'
import { fixed, readable } from '../../lib/numbers'
import { listed } from '../../lib/trust'
import { spread_of, value_words, with_unit } from '../../lib/words'

/** Below this a source is not told apart from silence. */
const least_heard_dba = 5

const whole = (percent: number) => `${fixed(percent, 0)} %`

/** `35 s`, `7.2 min`. */
function minutes(seconds: number): string {
  return seconds < 120 ? `${readable(seconds, 2)} s` : `${readable(seconds / 60, 2)} min`
}
/** `7.2 min (6.6 min to 8 min)`. */
export function minutes_words(seconds: Quantity): string {
  const spread = spread_of(seconds)
  const middle = minutes(seconds.value)
  if (!spread || minutes(spread.low) === minutes(spread.high)) return middle
  return `${middle} (${minutes(spread.low)} to ${minutes(spread.high)})`
}

/** `fans at 87 % of full speed`; one number where both groups turn alike. */
export function speed_words(chassis_percent: number, cooler_percent: number): string {
  return chassis_percent === cooler_percent
    ? `fans at ${whole(chassis_percent)} of full speed`
    : `case fans at ${whole(chassis_percent)}, the cooler's at ${whole(cooler_percent)} of full speed`
}

/** Speeds and why: `fans at 87 % of full speed, held by the card`. */
export function running_words(load: Load): string {
  if (!load.known || load.speed_percent === undefined) return 'not known'
  const held = load.held_by ?? ''
  let text = speed_words(load.speed_percent, load.cooler_speed_percent ?? load.speed_percent)
  if (load.speed_from === 'full')
    text += `, as no speed keeps every limit in every draw${held ? `; worst: ${held}` : ''}`
  else if (held) text += `, held by the ${held}`
  return load.speed_from === 'set' ? `${text}, as they are set` : text
}

/** Speeds of their own for case and cooler, beside the common one of all fans; empty where the answer has none. */
export function apart_words({ apart, noise }: Load, distance_m: number): string {
  if (!apart) return ''
  const less = noise ? noise.value - apart.noise.value : 0
  const beside = less > 0 ? `, ${with_unit(less, 'dB(A)')} less than at their common speed` : ''
  return (
    `With speeds of their own: ${speed_words(apart.speed_percent, apart.cooler_speed_percent)}: ${value_words(apart.noise)} at ${readable(distance_m)} m${beside}; ` +
    'every limit is kept so too. The claims are judged at the common speed.'
  )
}

/** The whole load in a sentence or two, fit to be read aloud. */
export function load_words(load: Load, distance_m: number): string {
  if (!load.known) return `Load ${load.load}: not known.`
  const hot = [...(load.parts ?? []), ...(load.followers ?? [])].flatMap(({ what, temperature }) =>
    temperature ? [`${what} ${value_words(temperature)}`] : []
  )
  const loud = load.noise ? `${value_words(load.noise)} at ${readable(distance_m)} m` : 'noise not known'
  return `Load ${load.load}: ${running_words(load)}. ${[...hot, loud].join('; ')}.`
}

const claim_ids: Readonly<Record<string, string>> = {
  'liquid of the loop': 'air.coolant-temperature',
  'power stage of the board': 'air.stage-temperature',
  'hottest drive': 'air.drive-temperature'
}
function limit_of(claims: readonly Claim[], id: string, load: string): number | undefined {
  const limit = claims.find((claim) => claim.id === id && claim.load === load)?.limit
  return limit && 'value' in limit && limit.relation === 'at_most' ? limit.value : undefined
}

function bar(name: string, told: string, value: Quantity, limit: number | undefined): BarRow {
  const row: BarRow = { name, told, value: value.value, ...spread_of(value) }
  if (limit === undefined) return row
  row.limit = limit
  row.limit_told = with_unit(limit, value.unit)
  if (Math.max(value.value, row.high ?? 0) > limit) row.tight = true
  return row
}

/** Temperatures, each against what the brief allows under this very load. */
export function temperature_rows(air: AirJson, load: Load): BarRow[] {
  const rows: BarRow[] = []
  // The processor stands first, then the card where there is one.
  for (const [i, part] of (load.parts ?? []).entries()) {
    if (!part.temperature) continue
    const power = is_lost(part.lost)
      ? `${with_unit(part.power_w, 'W', false)} of ${with_unit(part.asked_w, 'W', false)} asked, at its limit`
      : with_unit(part.power_w, 'W', false)
    const id = i === 0 ? 'air.cpu-temperature' : 'air.gpu-temperature'
    const row = bar(part.what, `${value_words(part.temperature)}; ${power}`, part.temperature, limit_of(air.claims, id, load.load))
    // At its own limit it is as hot as it may be, whatever the brief allows.
    rows.push(is_lost(part.lost) ? { ...row, tight: true } : row)
  }
  for (const { what, temperature } of load.followers ?? []) {
    const id = claim_ids[what] ?? ''
    rows.push(bar(what, value_words(temperature), temperature, limit_of(air.claims, id, load.load)))
  }
  if (load.exhaust)
    rows.push(
      bar('air that leaves', value_words(load.exhaust), load.exhaust, limit_of(air.claims, 'air.exhaust-temperature', load.load))
    )
  return rows
}

/** The level of all together against the brief's limit, then each source; in one order at every speed. */
export function noise_rows(air: AirJson, load: Load): BarRow[] {
  const rows: BarRow[] = []
  const name = `all together, at ${readable(air.distance_m ?? 1)} m`
  const limit = limit_of(air.claims, 'air.noise', load.load)
  if (load.noise) rows.push(bar(name, value_words(load.noise), load.noise, limit))
  else rows.push({ name, told: 'not known', ...(limit === undefined ? {} : { limit }) })
  if (load.noise_with_room)
    rows.push(bar("with the room's own level", value_words(load.noise_with_room), load.noise_with_room, undefined))
  for (const { what, level } of load.sources ?? []) {
    if (!level) rows.push({ name: what, told: 'no level is stated' })
    else if (level.value < least_heard_dba)
      rows.push({ name: what, told: `under ${least_heard_dba} dB(A)`, value: Math.max(0, level.value) })
    else {
      const row = bar(what, value_words(level), level, undefined)
      if (row.low !== undefined) row.low = Math.max(0, row.low)
      rows.push(row)
    }
  }
  return rows
}

/** Less is told as nothing: it would read `0.0 %`. */
const least_lost_percent = 0.05
const is_lost = (lost: Quantity | undefined): boolean => lost !== undefined && lost.value >= least_lost_percent

/** What has to slow down under any load, and how much of the power it asks for it must do without; empty where nothing does. */
export function held_back_words({ loads }: Pick<AirJson, 'loads'>): string[] {
  const by_part = new Map<string, string[]>()
  for (const { load, parts } of loads)
    for (const { what, lost } of parts ?? [])
      if (lost && Math.max(lost.value, lost.high ?? 0) >= least_lost_percent) {
        const size = is_lost(lost) ? value_words(lost) : `up to ${with_unit(lost.high ?? 0, lost.unit, false)} at worst`
        by_part.set(what, [...(by_part.get(what) ?? []), `${size} under the load ${load}`])
      }
  return [...by_part].map(
    ([what, said]) => `${what} has to slow down because of heat. Of the power it asks for it must do without ${listed(said)}.`
  )
}
/** The same where nothing does, of the loads of which something is known; empty where none is. */
export function not_held_back_words({ loads }: Pick<AirJson, 'loads'>): string {
  const known = loads.filter((load) => load.known && (load.parts ?? []).length > 0)
  if (known.length === 0) return ''
  return known.length === loads.length
    ? 'No part has to slow down because of heat under any load.'
    : `No part has to slow down because of heat under ${listed(known.map(({ load }) => `the load ${load}`))}; of the rest nothing is known.`
}

/** What has to slow down, sentence by sentence; empty where nothing does. */
export function lost_words(load: Load): string[] {
  return (load.parts ?? []).flatMap(({ what, lost }) =>
    lost && is_lost(lost) ? [`${what} has to slow down because of heat: it must do without ${value_words(lost)} of the power it asks for.`] : []
  )
}

type Fact = [name: string, text: string]
/** Air under a load, name by name; always the same names, so that nothing jumps while speeds change. */
export function air_facts(load: Load): Fact[] {
  const inlets = (load.inlets ?? []).map(
    ({ where, flow_m3_h, filtered }) =>
      `${where} ${with_unit(flow_m3_h, 'm3/h', false)}${filtered ? ' through its filter' : ''}`
  )
  const through = [
    load.through_m3_h === undefined ? '' : with_unit(load.through_m3_h, 'm3/h', false),
    load.changes_per_minute === undefined ? '' : `${readable(load.changes_per_minute, 2)} changes a minute`
  ]
  const inside = [
    load.upper_c === undefined ? '' : `${fixed(load.upper_c, 0)} °C around the processor`,
    load.lower_c === undefined ? '' : `${fixed(load.lower_c, 0)} °C below the card`
  ]
  const pressure = load.pressure_pa ?? 0
  const warm = (load.warm ?? []).flatMap(({ what, warm: after, slows_after_s, rest }) => {
    if (!after) return []
    const slows = slows_after_s === undefined ? '' : `, slowing itself down from ${minutes(slows_after_s)} on`
    const again = rest ? `, at rest again ${minutes_words(rest)} after the end` : ''
    return [`${what} after ${minutes_words(after)}${slows}${again}`]
  })
  const facts: Fact[] = [
    ['Goes through', through.filter(Boolean).join(', ')],
    ['Enters', inlets.join('; ')],
    ['By fans', load.by_fans_percent === undefined ? '' : `${whole(load.by_fans_percent)} of what enters`],
    ['Inside', inside.filter(Boolean).join(', ')],
    ['Leaves', load.exhaust ? `at ${value_words(load.exhaust)}` : ''],
    ['Pressure', `${readable(Math.abs(pressure), 2)} Pa ${pressure < 0 ? 'less' : 'more'} inside than outside`],
    ['Warm', warm.join('; ')]
  ]
  return facts.filter(([, text]) => text !== '')
}

/** Fans that work outside of what was measured of them. */
export function fan_cautions(load: Load): string[] {
  const out: string[] = []
  if (load.blown_backwards)
    out.push('A fan is blown through against its way by the others: more is not covered by its data.')
  if (load.stalled) out.push('A fan works in its stall range: less air is claimed than was measured there.')
  return out
}

/** The load whose limit the brief states for noise, else the heaviest there is. */
export function usual_load(air: AirJson): string {
  const names = air.loads.map(({ load }) => load)
  const limited = air.claims.find(({ id, load }) => id === 'air.noise' && names.includes(load))?.load
  return limited ?? (names.includes('everything') ? 'everything' : (names[0] ?? ''))
}
