// What the pictures of air and power say: the published sheet's words (sheet/physics_words.cpp).
import type { PhysicsJson, Window } from '../../lib/json/physics'
import { readable } from '../../lib/numbers'
import type { HeatPath } from './heat_layout'

type Warming = NonNullable<PhysicsJson['warming']>
type Sweep = NonNullable<PhysicsJson['speed_sweep']>

const watts = (value: number) => `${readable(value)} W`
const degrees = (value: number | undefined) => (value === undefined ? '' : `${readable(value)} °C`)

/** `35 s`, `4.2 min`, `1.5 h`. */
export function duration_words(seconds: number): string {
  if (seconds < 90) return `${readable(seconds, 2)} s`
  if (seconds < 5400) return `${readable(seconds / 60, 2)} min`
  return `${readable(seconds / 3600, 2)} h`
}

/** `processor (54 °C)`. */
export function place_name(path: HeatPath, id: string): string {
  const place = path.places.find((each) => each.id === id)
  if (!place) return id
  return place.temp_c === undefined ? place.name : `${place.name} (${degrees(place.temp_c)})`
}

/** `fans at 62 %, the air around the case at 24 °C`. */
export function conditions_words(path: HeatPath): string {
  const percent = (value: number | undefined) => (value === undefined ? 'not known' : `${readable(value)} %`)
  const cooler = path.cooler_speed_percent
  const fans =
    cooler === undefined
      ? `fans at ${percent(path.fan_speed_percent)}`
      : `case fans at ${percent(path.fan_speed_percent)}, the cooler's at ${percent(cooler)}`
  return `${fans}, the air around the case at ${degrees(path.room_c) || 'not known'}`
}

function places_words(path: HeatPath, kind: 'source' | 'outside'): string {
  const sum = (id: string) =>
    path.flows.reduce((all, flow) => all + ((kind === 'source' ? flow.from : flow.to) === id ? (flow.power_w ?? 0) : 0), 0)
  return path.places
    .filter((place) => place.kind === kind && sum(place.id) > 0)
    .map(({ id, name }) => `${name} ${watts(sum(id))}`)
    .join(', ')
}
export function heat_path_words(path: HeatPath): string {
  const given = places_words(path, 'source')
  const leaves = places_words(path, 'outside')
  const conditions = conditions_words(path)
  return [
    path.load ? `Load: ${path.load}.` : '',
    given && `Heat given off: ${given}.`,
    leaves && `It leaves by: ${leaves}.`,
    `${conditions.charAt(0).toUpperCase()}${conditions.slice(1)}.`
  ].filter(Boolean).join(' ')
}

/** `11 K left`, `3 K over`. */
function kelvin_room(temp_c: number, limit_c: number | undefined): string {
  if (limit_c === undefined) return ''
  const room = limit_c - temp_c
  return `, ${readable(Math.abs(room))} K ${room < 0 ? 'over' : 'left'} of ${degrees(limit_c)}`
}
/** Where each course ends, and when it is there. */
export function warming_words(warming: Warming): string {
  const said = warming.curves.flatMap(({ name, temp_c, limit_c, settled_s }) => {
    const last = temp_c?.at(-1)
    if (last === undefined) return []
    const settled = settled_s === undefined ? '' : `, settled after ${duration_words(settled_s)}`
    return [`${name} ${degrees(last)}${kelvin_room(last, limit_c)}${settled}`]
  })
  const end = warming.time_s?.at(-1)
  if (end === undefined || said.length === 0) return 'No temperatures are known.'
  const noise = warming.noise_dba?.at(-1)
  return `After ${duration_words(end)}: ${said.join('; ')}.${noise === undefined ? '' : ` Noise then ${readable(noise)} dB(A).`}`
}

/** On straight lines between points; null outside of them. */
export function value_at(xs: readonly number[], ys: readonly number[], x: number): number | null {
  if (xs.length !== ys.length) return null
  const next = xs.findIndex((each) => each >= x)
  const [x1, y1] = [xs[next], ys[next]]
  if (next < 0 || x1 === undefined || y1 === undefined) return null
  if (x1 === x) return y1
  const [x0, y0] = [xs[next - 1], ys[next - 1]]
  if (x0 === undefined || y0 === undefined) return null
  return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0)
}
/** Temperatures and noise at a speed of all fans. */
export function sweep_words(sweep: Sweep, percent: number): string {
  const xs = sweep.speed_percent ?? []
  const at = (name: string, spread: { value?: number[]; low?: number[]; high?: number[] } | undefined, unit: string) => {
    const middle = value_at(xs, spread?.value ?? [], percent)
    if (middle === null) return []
    const low = value_at(xs, spread?.low ?? [], percent)
    const high = value_at(xs, spread?.high ?? [], percent)
    const interval = low === null || high === null ? '' : ` (${readable(low)} to ${readable(high)})`
    return [`${name} ${readable(middle)} ${unit}${interval}`]
  }
  const said = [
    ...sweep.temperatures.flatMap(({ name, temp_c }) => at(name, temp_c, '°C')),
    ...at('noise', sweep.noise_dba, 'dB(A)')
  ]
  return said.length === 0 ? '' : `With all fans at ${readable(percent)} % of full speed: ${said.join(', ')}.`
}

/** `490 to 589 W of 1350 W: 761 W left`. */
export function window_words({ low_w, high_w, allowed_w }: Window): string {
  if (low_w === undefined || high_w === undefined)
    return allowed_w === undefined ? 'neither load nor limit known' : `load not known, ${watts(allowed_w)} allowed`
  const load = low_w === high_w ? watts(low_w) : `${readable(low_w)} to ${watts(high_w)}`
  if (allowed_w === undefined) return `${load}, no limit stated`
  const over = high_w - allowed_w
  const room = over <= 0 ? `${watts(-over)} left` : `${low_w > allowed_w ? '' : 'up to '}${watts(over)} over`
  return `${load} of ${watts(allowed_w)}: ${room}`
}
