// Build files as texts (docs/brief.md): made from a plan's parts, and changed part by part with all
// else left as it was written.
import type { Adjustment, OneOrMore, Parts, PartList, Swap } from './json/common'
import { read_toml, remove_section, set_key, text_literal } from './toml_edit'

/** In the order of mounting. */
const kinds = [
  'cpu', 'board', 'memory', 'cooler', 'gpu', 'storage', 'case', 'fan', 'psu', 'display', 'other'
] as const
export type Kind = (typeof kinds)[number]

const listed = (value: OneOrMore): PartList => (typeof value === 'string' ? [{ id: value, count: 1 }] : value)

/** `"id"`, or `["id", { id = "id", count = 2 }]`. */
export function parts_literal(parts: PartList): string {
  const one = ({ id, count }: PartList[number]) =>
    count === 1 ? text_literal(id) : `{ id = ${text_literal(id)}, count = ${count} }`
  const [first] = parts
  if (parts.length === 1 && first?.count === 1) return text_literal(first.id)
  return `[${parts.map(one).join(', ')}]`
}

export function build_text(name: string, parts: Parts): string {
  const lines = [`name = ${text_literal(name)}`]
  for (const kind of kinds) {
    const value = parts[kind]
    if (value === undefined || (typeof value !== 'string' && value.length === 0)) continue
    lines.push(`${kind} = ${parts_literal(listed(value))}`)
  }
  return `${lines.join('\n')}\n`
}

/** What a text says of a kind; empty where it says nothing, or is no TOML. */
export function parts_of(text: string, kind: string): PartList {
  const value = read_toml(text)?.[kind]
  if (typeof value === 'string') return [{ id: value, count: 1 }]
  if (!Array.isArray(value)) return []
  return value.flatMap((each: unknown) => {
    if (typeof each === 'string') return [{ id: each, count: 1 }]
    if (typeof each !== 'object' || each === null) return []
    const { id, count } = each as { id?: unknown; count?: unknown }
    return typeof id === 'string' ? [{ id, count: Number(count ?? 1) }] : []
  })
}

/** These parts of a kind instead of what there were; none takes the kind out. Null: it is no TOML. */
export function with_parts(text: string, kind: string, parts: PartList): string | null {
  const literal = parts.length === 0 ? null : parts_literal(parts)
  return set_key(text, { section: '', key: kind }, literal)?.text ?? null
}

/** One part for another (`into` null: taken out; `out` null: one more). */
export function with_part(text: string, kind: string, out: string | null, into: string | null, count = 1): string | null {
  const now = parts_of(text, kind)
  const rest: PartList = []
  let placed = false
  for (const part of now) {
    if (out === null || part.id !== out || placed) {
      rest.push(part)
      continue
    }
    placed = true
    if (into !== null) rest.push({ id: into, count: part.count })
  }
  if (out === null && into !== null) {
    const there = rest.findIndex(({ id }) => id === into)
    const part = there < 0 ? undefined : rest[there]
    if (part) rest[there] = { id: into, count: part.count + count }
    else rest.push({ id: into, count })
  }
  return with_parts(text, kind, rest)
}

/** What a remedy changes of the parts. Its `count` is of all pieces of what comes in: one more fan of a
model that is there comes as that model for itself. */
export function with_swap(text: string, { kind, out, in: into, count }: Swap): string | null {
  if (!out) return with_part(text, kind, null, into || null, count)
  const parts = parts_of(text, kind).flatMap((part) => (part.id !== out ? [part] : into ? [{ id: into, count }] : []))
  return with_parts(text, kind, parts)
}

/** Where something sits: `cooler`, `fan`, or a drive's id; null leaves it to the tool. */
export function with_mount(text: string, what: string, mount: string | null): string | null {
  return set_key(text, { section: 'mounts', key: what }, mount === null ? null : text_literal(mount))?.text ?? null
}

export interface FanSpeed {
  fans: 'case' | 'cooler'
  percent: number
}
/** Fans at one speed each, whatever the temperature; an empty list leaves them to the tool. */
export function with_fan_speeds(text: string, speeds: readonly FanSpeed[]): string | null {
  const without = remove_section(text, 'fan_speeds')?.text ?? null
  if (without === null || speeds.length === 0) return without
  const blocks = speeds.map(
    // One point: the same speed at every temperature, whichever they would follow.
    ({ fans, percent }) =>
      `[[fan_speeds]]\nfans = "${fans}"\nfollows = "cpu"\ntemp_c = 40\nspeed_percent = ${percent}\n`
  )
  return `${without.trimEnd()}\n\n${blocks.join('\n')}`
}

/** Other mounts and speeds of the same parts. */
export function with_adjustment(text: string, adjustment: Adjustment): string | null {
  let out: string | null = text
  if (adjustment.radiator_at !== undefined) out = out && with_mount(out, 'cooler', adjustment.radiator_at)
  if (adjustment.fans_at !== undefined) out = out && with_mount(out, 'fan', adjustment.fans_at)
  const speeds: FanSpeed[] = []
  if (adjustment.case_speed_percent !== undefined) speeds.push({ fans: 'case', percent: adjustment.case_speed_percent })
  if (adjustment.cooler_speed_percent !== undefined)
    speeds.push({ fans: 'cooler', percent: adjustment.cooler_speed_percent })
  return out && speeds.length > 0 ? with_fan_speeds(out, speeds) : out
}

export const is_kind = (name: string): name is Kind => (kinds as readonly string[]).includes(name)
export { kinds }
