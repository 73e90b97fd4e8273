// What stands in a brief, section by section, for the form; and a first text for a new one.
import { line_of_key, line_of_section, read_toml } from '../../lib/toml_edit'
import { is_unfilled, plain_problem } from './plain'
import type { Trouble } from '../../lib/api'
import type { Table } from '../../lib/documents'

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

/**
 * What the server says of the line a key stands in; empty: nothing. Nothing either of what nobody has filled in
 * yet: it is not wrong, and the field says what to choose.
 */
export function problem_at(text: string, problems: readonly Trouble[], section: string, key: string, index?: number): string {
  const line = line_of_key(text, index === undefined ? { section, key } : { section, key, index })
  if (line === null || is_unfilled(text, line)) return ''
  return problems.filter((problem) => problem.line === line).map((problem) => plain_problem(problem.text)).join('; ')
}
/** Of a section's header: what is missing in it. */
export function problem_of_section(text: string, problems: readonly Trouble[], section: string, index = 0): string {
  const line = line_of_section(text, section, index)
  if (line === null) return ''
  return problems.filter((problem) => problem.line === line).map((problem) => plain_problem(problem.text)).join('; ')
}

/** A new brief lets no older price count: what was seen weeks ago is often sold out, or dearer. */
export const max_price_age_days = 14

/** The newest day a price was seen on; empty where there is none. */
export function newest_seen({ columns, rows }: Pick<Table, 'columns' | 'rows'>): string {
  const at = columns.indexOf('seen')
  return rows.reduce((newest, { cells }) => {
    const day = cells[at] ?? ''
    return /^\d{4}-\d{2}-\d{2}$/.test(day) && day > newest ? day : newest
  }, '')
}

/** Markets whose offers are all in one currency, and which. */
export function market_currencies({ columns, rows }: Pick<Table, 'columns' | 'rows'>): Map<string, string> {
  const [market, currency] = [columns.indexOf('market'), columns.indexOf('currency')]
  const seen = new Map<string, Set<string>>()
  for (const { cells } of rows) {
    const [of, money] = [cells[market] ?? '', cells[currency] ?? '']
    if (of !== '' && money !== '') seen.set(of, (seen.get(of) ?? new Set()).add(money))
  }
  return new Map([...seen].flatMap(([of, all]) => (all.size === 1 ? [[of, [...all][0] ?? '']] : [])))
}

/**
 * The currency to write with a market that was typed: that of its offers. Empty: the one that is there stays, since
 * nothing is known, or somebody chose it (it is not simply that of the market before).
 */
export function currency_with(now: string, was: { market: string; currency: string }, known: ReadonlyMap<string, string>): string {
  const theirs = known.get(now) ?? ''
  const untouched = was.currency === '' || was.currency === known.get(was.market)
  return untouched && theirs !== was.currency ? theirs : ''
}

/** Today; where every price would be too old by then, the day of the newest. In: days as 2026-10-01. */
export function day_of_new(today: string, seen: string): string {
  const age_days = (Date.parse(today) - Date.parse(seen)) / 86_400_000
  return age_days > max_price_age_days ? seen : today
}

export function new_brief_text(name: string, day: string): string {
  return `[brief]
name = ${JSON.stringify(name)}
as_of = ${day}
offers_not_older_than_days = ${max_price_age_days}

[[markets]]
market = "IE"
currency = "EUR"
budget = "1500.00"

[musts]
memory_gb = 32
storage_gb = 1000
`
}
