// What stands in a brief, section by section, for the form; and a first text for a new one.
import { line_of_key, line_of_section, read_toml } from '../../lib/toml_edit'
import type { Trouble } from '../../lib/api'

export type Values = Record<string, unknown>
const is_values = (value: unknown): value is Values =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && !(value instanceof Date)

export interface BriefValues {
  /** A section that is written once. */
  one: (section: string) => Values
  /** `[[markets]]`, `[[titles]]`, `[[loads]]`. */
  several: (section: string) => Values[]
}

/** Null for a text that is no TOML: only the file itself can then be written in. */
export function values_of(text: string): BriefValues | null {
  const root = read_toml(text)
  if (!root) return null
  return {
    one: (section) => (is_values(root[section]) ? root[section] : {}),
    several: (section) => (Array.isArray(root[section]) ? root[section].filter(is_values) : [])
  }
}

/** What the server says of the line a key stands in; empty: nothing. */
export function problem_at(text: string, problems: readonly Trouble[], section: string, key: string, index?: number): string {
  const line = line_of_key(text, index === undefined ? { section, key } : { section, key, index })
  if (line === null) return ''
  return problems.filter((problem) => problem.line === line).map((problem) => problem.text).join('; ')
}
/** Of a section's header: what is missing in it. */
export function problem_of_section(text: string, problems: readonly Trouble[], section: string, index = 0): string {
  const line = line_of_section(text, section, index)
  if (line === null) return ''
  return problems.filter((problem) => problem.line === line).map((problem) => problem.text).join('; ')
}

export function new_brief_text(name: string, day: string): string {
  return `[brief]
name = ${JSON.stringify(name)}
as_of = ${day}

[[markets]]
market = "IE"
currency = "EUR"
budget = "1500.00"

[musts]
memory_gb = 32
storage_gb = 1000
`
}
