// A brief with one of its requirements eased as far as a conflict says it has to be.
import type { Requirement } from '../../lib/json/common'
import { read_toml, set_key, text_literal, type KeyPlace } from '../../lib/toml_edit'
import { plain_amount } from '../../lib/words'
import { inline_literal } from '../brief/fields'

const is_record = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Where `markets.IE.budget` or `titles.harbour-lights.floor_fps` stands: the list's entries have names. */
function place_of(root: Record<string, unknown>, path: string): KeyPlace | null {
  const [section = '', second = '', third = ''] = path.split('.')
  const names: Readonly<Record<string, string>> = { markets: 'market', titles: 'title', loads: 'name' }
  const named = names[section]
  if (named) {
    const list = root[section]
    const index = Array.isArray(list) ? list.findIndex((each) => is_record(each) && each[named] === second) : -1
    return index < 0 ? null : { section, index, key: third }
  }
  return third === '' ? { section, key: second } : null
}

/** Null where it cannot be written so. */
export function eased_text(text: string, { path, relaxation }: Requirement): string | null {
  const root = read_toml(text)
  if (!root || !relaxation) return null
  const place = place_of(root, path)
  if (!place) return null
  if (relaxation.money_to) return set_key(text, place, text_literal(plain_amount(relaxation.money_to)))?.text ?? null
  if (relaxation.value_to === undefined) return null
  const section = root[place.section]
  const now = is_record(section) ? section[place.key] : undefined
  // A limit with its load is one value of several pieces.
  if (is_record(now) && now.at_most !== undefined) {
    const pieces = Object.entries({ ...now, at_most: relaxation.value_to }).map(
      ([key, value]): [string, string] => [key, typeof value === 'string' ? text_literal(value) : String(value)]
    )
    return set_key(text, place, inline_literal(pieces))?.text ?? null
  }
  return set_key(text, place, String(relaxation.value_to))?.text ?? null
}
