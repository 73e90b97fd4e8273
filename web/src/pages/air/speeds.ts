// How fast the page lets the fans turn: read from its address, asked for, written into a build.
import { with_fan_speeds, type FanSpeed } from '../../lib/build_text'
import { read_toml } from '../../lib/toml_edit'

export const least_percent = 10
export const most_percent = 100

/** Of full speed, whole per cent; absent: as the build says, or as slow as the limits allow. */
export interface Speeds {
  chassis?: number
  /** Absent: with the case's fans where those are set. */
  cooler?: number
}

export type Group = keyof Speeds
/** What fans do that are let go. In: which fans the build sets. One that nothing sets turns with the other, where nothing sets that either. */
export function words_let_go(group: Group, speeds: Speeds, set: Readonly<Record<Group, boolean>>): string {
  const other = group === 'cooler' ? 'chassis' : 'cooler'
  if (group === 'cooler' && speeds.chassis !== undefined) return "with the case's fans"
  if (set[group]) return 'as the build says'
  const common = !set[other] && speeds[other] === undefined
  return common ? 'quietest common speed that keeps the limits' : 'quietest that keeps the limits'
}

function read_percent(text: string | null): number | undefined {
  if (text === null || !/^\d{1,3}$/.test(text)) return undefined
  const percent = Number(text)
  return percent >= least_percent && percent <= most_percent ? percent : undefined
}

/** `speed` and `cooler` of an address; what is no speed is left out. */
export function speeds_of(query: URLSearchParams): Speeds {
  const chassis = read_percent(query.get('speed'))
  const cooler = read_percent(query.get('cooler'))
  return { ...(chassis === undefined ? {} : { chassis }), ...(cooler === undefined ? {} : { cooler }) }
}

export const are_let_go = ({ chassis, cooler }: Speeds) => chassis === undefined && cooler === undefined

/** The inputs of the question `air`. */
export function air_inputs(build: string, brief: string, { chassis, cooler }: Speeds): Record<string, unknown> {
  return {
    build,
    ...(brief ? { brief } : {}),
    ...(chassis === undefined ? {} : { speed: chassis }),
    ...(cooler === undefined ? {} : { cooler_speed: cooler })
  }
}

interface Point {
  fans: string
  follows: string
  temp_c: number
  speed_percent: number
}
function points_of(text: string): Point[] {
  const list = read_toml(text)?.fan_speeds
  if (!Array.isArray(list)) return []
  return list.filter((each): each is Point => typeof each === 'object' && each !== null && 'fans' in each)
}

/** Which fans the text of a build sets. */
export function set_in(text: string): { chassis: boolean; cooler: boolean } {
  const points = points_of(text)
  return {
    chassis: points.some(({ fans }) => fans === 'case'),
    cooler: points.some(({ fans }) => fans === 'cooler')
  }
}

/**
 * A build whose fans turn at these speeds whatever the temperature, as the question `air` takes them:
 * the cooler's alone leave the case's as they are set. Null for a text that is no TOML.
 */
export function with_speeds(text: string, { chassis, cooler }: Speeds): string | null {
  const still: FanSpeed[] = []
  const together = cooler ?? chassis
  if (chassis !== undefined) still.push({ fans: 'case', percent: chassis })
  if (together !== undefined) still.push({ fans: 'cooler', percent: together })
  if (still.length === 0) return text
  const changed = with_fan_speeds(text, still)
  if (changed === null || chassis !== undefined) return changed
  const kept = points_of(text).filter(({ fans }) => fans === 'case')
  const blocks = kept.map(
    ({ fans, follows, temp_c, speed_percent }) =>
      `\n[[fan_speeds]]\nfans = "${fans}"\nfollows = "${follows}"\ntemp_c = ${temp_c}\nspeed_percent = ${speed_percent}\n`
  )
  return changed + blocks.join('')
}

/** A build that leaves the speed of all its fans to the tool. */
export const without_speeds = (text: string): string | null => with_fan_speeds(text, [])
