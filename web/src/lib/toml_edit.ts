// One key of a TOML text changed, all else left as its author wrote it: comments, order, blank lines.
// Where the text is written in a way that this cannot edit in place (a value over several lines, dotted
// keys) the whole is written anew from its values, and that is said.
import { parse, stringify } from 'smol-toml'

export interface KeyPlace {
  /** `brief`, `markets`, `limits`; empty: the top of the file. */
  section: string
  /** Which of several, from 0: of `[[markets]]`. */
  index?: number
  key: string
}
export interface Edited {
  text: string
  /** Comments were lost: it was written anew. */
  anew: boolean
}
type Table = Record<string, unknown>

const bare = /^[A-Za-z0-9_-]+$/
export const key_literal = (key: string) => (bare.test(key) ? key : JSON.stringify(key))
/** A basic string. */
export const text_literal = (text: string) => JSON.stringify(text).replaceAll('\u007f', '\\u007f')

const is_table = (value: unknown): value is Table =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && !(value instanceof Date)

/** Of a text that is no TOML: null. */
export function read_toml(text: string): Table | null {
  try {
    return parse(text) as Table
  } catch {
    return null
  }
}
const same = (a: Table, b: Table) => stringify(a) === stringify(b)

/** Cuts a line after its value: `key = "a # b"  # why` -> [`key = "a # b"`, `  # why`]; null: it goes on. */
export function cut_comment(line: string): [string, string] | null {
  let quote = ''
  let depth = 0
  for (let i = 0; i < line.length; i += 1) {
    const c = line[i]
    if (quote) {
      if (c === '\\' && quote === '"') i += 1
      else if (c === quote) quote = ''
    } else if (c === '"' || c === "'") {
      if (line.startsWith(c.repeat(3), i)) return null
      quote = c
    } else if (c === '[' || c === '{') depth += 1
    else if (c === ']' || c === '}') depth -= 1
    else if (c === '#') {
      const value = line.slice(0, i).trimEnd()
      return quote || depth !== 0 ? null : [value, line.slice(value.length)]
    }
  }
  return quote || depth !== 0 ? null : [line.trimEnd(), '']
}

interface Block {
  name: string
  /** Line of the header; -1 of the top. */
  header: number
  /** First line after it that is not its own. */
  end: number
  array: boolean
}
function blocks_of(lines: readonly string[]): Block[] {
  const out: Block[] = [{ name: '', header: -1, end: lines.length, array: false }]
  for (const [i, line] of lines.entries()) {
    const found = /^\s*(\[\[?)\s*([^[\]]+?)\s*\]\]?\s*(#.*)?$/.exec(line)
    if (!found) continue
    const last = out.at(-1)
    if (last) last.end = i
    out.push({ name: (found[2] ?? '').replaceAll(/["']/g, ''), header: i, end: lines.length, array: found[1] === '[[' })
  }
  return out
}
function block_of(lines: readonly string[], section: string, index = 0): Block | null {
  return blocks_of(lines).filter(({ name }) => name === section)[index] ?? null
}
/** After its last line that says something. */
function end_of(lines: readonly string[], block: Block): number {
  let at = block.end
  while (at > block.header + 1 && /^\s*(#.*)?$/.test(lines[at - 1] ?? '')) at -= 1
  return at
}
function line_of(lines: readonly string[], block: Block, key: string): number | null {
  for (let i = block.header + 1; i < block.end; i += 1) {
    const found = /^\s*("[^"]*"|'[^']*'|[A-Za-z0-9_-]+)\s*=/.exec(lines[i] ?? '')
    if (found && (found[1] ?? '').replaceAll(/^["']|["']$/g, '') === key) return i
  }
  return null
}

/** The line a key stands in, from 1; of a section without it, its header's. Null: it is not there. */
export function line_of_key(text: string, { section, index, key }: KeyPlace): number | null {
  const lines = text.split('\n')
  const block = block_of(lines, section, index ?? 0)
  if (!block) return null
  const at = line_of(lines, block, key)
  if (at !== null) return at + 1
  return null
}
/** The line of a section's header, from 1. */
export function line_of_section(text: string, section: string, index = 0): number | null {
  const block = block_of(text.split('\n'), section, index)
  return block && block.header >= 0 ? block.header + 1 : null
}

/** What stands in a line, from 1: the section, and the key that is written there. Null: neither. */
export function place_of_line(text: string, line: number): Omit<KeyPlace, 'key'> & { key?: string } | null {
  const lines = text.split('\n')
  const blocks = blocks_of(lines)
  const block = blocks.findLast(({ header }) => header < line)
  if (!block || line < 1 || line > lines.length || block.name === '') return null
  const same_name = blocks.filter(({ name }) => name === block.name)
  const place = { section: block.name, ...(block.array ? { index: same_name.indexOf(block) } : {}) }
  const found = /^\s*("[^"]*"|'[^']*'|[A-Za-z0-9_-]+)\s*=/.exec(lines[line - 1] ?? '')
  return found ? { ...place, key: (found[1] ?? '').replaceAll(/^["']|["']$/g, '') } : place
}

function finished(text: string, wanted: Table): Edited {
  const got = read_toml(text)
  if (got && same(got, wanted)) return { text, anew: false }
  return { text: `${stringify(wanted)}\n`, anew: true }
}

function table_at(root: Table, { section, index }: Omit<KeyPlace, 'key'>): Table {
  if (section === '') return root
  if (index !== undefined) {
    const list = (Array.isArray(root[section]) ? root[section] : (root[section] = [])) as Table[]
    while (list.length <= index) list.push({})
    return list[index] ?? {}
  }
  let table = root
  for (const name of section.split('.')) {
    if (!is_table(table[name])) table[name] = {}
    table = table[name] as Table
  }
  return table
}

/** Sets a key to a literal as TOML writes it, or takes it out (null). Null for a text that is no TOML. */
export function set_key(text: string, place: KeyPlace, literal: string | null): Edited | null {
  const wanted = read_toml(text)
  if (!wanted) return null
  const table = table_at(wanted, place)
  if (literal === null) Reflect.deleteProperty(table, place.key)
  else {
    const value = read_toml(`value = ${literal}`)
    if (!value) return null
    table[place.key] = value.value
  }
  const lines = text.split('\n')
  const block = block_of(lines, place.section, place.index ?? 0)
  const written = literal === null ? [] : [`${key_literal(place.key)} = ${literal}`]
  if (!block) {
    if (literal === null) return { text, anew: false }
    const header = place.index === undefined ? `[${place.section}]` : `[[${place.section}]]`
    return finished(`${text.trimEnd()}\n\n${header}\n${written.join('')}\n`, wanted)
  }
  const at = line_of(lines, block, place.key)
  if (at === null) {
    if (literal === null) return { text, anew: false }
    lines.splice(end_of(lines, block), 0, ...written)
  } else {
    const cut = cut_comment(lines[at] ?? '')
    if (!cut) return { text: `${stringify(wanted)}\n`, anew: true }
    lines.splice(at, 1, ...written.map((line) => line + cut[1]))
  }
  return finished(lines.join('\n'), wanted)
}

/** One more `[[section]]` after the last of its kind. In: keys with their literals. */
export function add_block(text: string, section: string, keys: ReadonlyArray<[string, string]>): Edited | null {
  const wanted = read_toml(text)
  if (!wanted) return null
  const body = keys.map(([key, literal]) => `${key_literal(key)} = ${literal}`)
  const values = read_toml(body.join('\n'))
  if (!values) return null
  const list = (Array.isArray(wanted[section]) ? wanted[section] : (wanted[section] = [])) as Table[]
  list.push(values)
  const lines = text.split('\n')
  const block = blocks_of(lines).findLast(({ name }) => name === section)
  if (!block) return finished(`${text.trimEnd()}\n\n[[${section}]]\n${body.join('\n')}\n`, wanted)
  lines.splice(end_of(lines, block), 0, '', `[[${section}]]`, ...body)
  return finished(lines.join('\n'), wanted)
}

/** Takes the `index`th `[[section]]` out, with the comments right above it. */
export function remove_block(text: string, section: string, index: number): Edited | null {
  const wanted = read_toml(text)
  if (!wanted) return null
  const list = wanted[section]
  if (Array.isArray(list)) {
    list.splice(index, 1)
    if (list.length === 0) Reflect.deleteProperty(wanted, section)
  }
  const lines = text.split('\n')
  const block = block_of(lines, section, index)
  if (!block) return { text, anew: false }
  let from = block.header
  while (from > 0 && /^\s*#/.test(lines[from - 1] ?? '')) from -= 1
  let to = end_of(lines, block)
  while (to < block.end && /^\s*$/.test(lines[to] ?? '')) to += 1
  lines.splice(from, to - from)
  return finished(lines.join('\n'), wanted)
}

/** Takes a whole `[section]` out; also `[one.of.several]`. */
export function remove_section(text: string, section: string): Edited | null {
  const wanted = read_toml(text)
  if (!wanted) return null
  const lines = text.split('\n')
  const [last = '', ...above] = section.split('.').reverse()
  const parent = above.reverse().join('.')
  const table = table_at(wanted, { section: parent })
  Reflect.deleteProperty(table, last)
  // What only its pieces made is gone with the last of them.
  if (parent !== '' && Object.keys(table).length === 0 && !block_of(lines, parent)) Reflect.deleteProperty(wanted, parent)
  for (const block of blocks_of(lines).filter(({ name }) => name === section).reverse()) {
    lines.splice(block.header, Math.max(1, end_of(lines, block) - block.header))
  }
  return finished(lines.join('\n'), wanted)
}
