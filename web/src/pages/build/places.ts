// The parts of a build by where they are mounted, as the published sheet says it.
import { parts_of, type Kind } from '../../lib/build_text'
import { read_toml } from '../../lib/toml_edit'

/** In the order of the sheet: the board and what sits on it, slots, the case, its faces, the rest. */
export const places: ReadonlyArray<[kind: Kind, place: string]> = [
  ['board', 'board tray'],
  ['cpu', 'processor socket'],
  ['cooler', 'on the processor'],
  ['memory', 'memory slots'],
  ['storage', 'drive sockets and cages'],
  ['gpu', 'card slot'],
  ['case', 'around it all'],
  ['fan', 'case faces'],
  ['psu', 'supply chamber'],
  ['other', 'small parts'],
  ['display', 'beside the machine']
]
/** Of these a build may have several different ones. */
export const several: readonly Kind[] = ['storage', 'fan', 'other', 'display']

export interface PlacedPart {
  kind: Kind
  place: string
  id: string
  count: number
  /** Where the build file puts it: a face of the case, a socket. Empty: left to the tool. */
  at: string
}

/** The `[mounts]` of a text. */
export function mounts_of(text: string): Record<string, string> {
  const mounts = read_toml(text)?.mounts
  if (typeof mounts !== 'object' || mounts === null) return {}
  return Object.fromEntries(
    Object.entries(mounts).filter((pair): pair is [string, string] => typeof pair[1] === 'string')
  )
}

export function placed_parts(text: string): PlacedPart[] {
  const mounts = mounts_of(text)
  return places.flatMap(([kind, place]) =>
    parts_of(text, kind).map(({ id, count }) => ({
      kind, place, id, count, at: (kind === 'storage' ? mounts[id] : mounts[kind]) ?? ''
    }))
  )
}

/** Kinds of which the build could have one more. */
export function addable_kinds(text: string): Kind[] {
  return places.map(([kind]) => kind).filter((kind) => several.includes(kind) || parts_of(text, kind).length === 0)
}

export { kind_words } from '../../lib/kinds'
