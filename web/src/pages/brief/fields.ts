// A key of a brief as a form shows it: where it stands, what is written there, how what is typed is
// written as TOML.
import type { KeySpec } from '../../lib/forms'
import { key_literal, text_literal, type KeyPlace } from '../../lib/toml_edit'

export type Typed = string | boolean | string[]
/** What stands there, as a form holds it; null: nothing does. */
export type Written = Typed | null

/** From a value of the parser. Dates come as objects with a date alone. */
export function written(value: unknown, type: KeySpec['type']): Written {
  if (value === undefined || value === null) return null
  if (type === 'choices') return Array.isArray(value) ? value.map(String) : []
  if (typeof value === 'boolean') return value
  if (value instanceof Date) return value.toISOString().slice(0, 10)
  if (typeof value === 'object') return null
  return String(value)
}

const numeric = (text: string) => /^[+-]?\d+(\.\d+)?$/.test(text)

// As pages print it (a nought before the comma would be a decimal comma): `1,250.00`, or with thin, narrow or plain spaces in place of the commas.
const grouped = /^([+-]?)([1-9]\d{0,2}(?:,\d{3})+|[1-9]\d{0,2}(?:[ \u00a0\u2009\u202f]\d{3})+)(\.\d+)?$/

/** What was typed, as the file writes it: digits without grouping, codes of countries and money in capitals. */
export function tidied(text: string, type: KeySpec['type']): string {
  const bare = text.trim()
  if (type === 'market' || type === 'currency') return bare.toUpperCase()
  if (type !== 'money' && type !== 'number' && type !== 'whole') return bare
  return bare.replace(grouped, (_, sign: string, digits: string, decimals = '') => `${sign}${digits.replaceAll(/\D/g, '')}${decimals}`)
}

/** The literal of what was typed; null where it is nothing of this type. */
export function literal_of(typed: Typed, type: KeySpec['type']): string | null {
  if (type === 'flag') return typeof typed === 'boolean' ? String(typed) : null
  if (type === 'choices') return Array.isArray(typed) ? `[${typed.map(text_literal).join(', ')}]` : null
  if (typeof typed !== 'string' || typed.trim() === '') return null
  const text = tidied(typed, type)
  switch (type) {
    case 'number':
      return numeric(text) ? text : null
    case 'whole':
      return /^[+-]?\d+$/.test(text) ? text : null
    case 'date':
      return /^\d{4}-\d{2}-\d{2}$/.test(text) ? text : null
    default:
      return text_literal(text)
  }
}

/** Why what was typed cannot be written; empty: it can. What it means the server judges. */
export function objection(typed: Typed, spec: KeySpec): string {
  if (literal_of(typed, spec.type) !== null) {
    if ((spec.type === 'number' || spec.type === 'whole') && spec.min !== undefined && spec.max !== undefined) {
      const number = Number(typeof typed === 'string' ? tidied(typed, spec.type) : typed)
      if (number < spec.min || number > spec.max || (spec.more_than_min && number === spec.min))
        return `expected ${spec.more_than_min ? 'more than' : 'at least'} ${spec.min} and at most ${spec.max}`
    }
    return ''
  }
  if (typed === '' || (Array.isArray(typed) && typed.length === 0)) return 'expected something'
  const wanted: Partial<Record<KeySpec['type'], string>> = {
    number: 'a number, with a point', whole: 'a whole number', date: 'a day, as 2026-10-01'
  }
  return `expected ${wanted[spec.type] ?? 'one line of text'}`
}

/** `{ at_most = 34, load = "title" }` of its pieces. */
export function inline_literal(pieces: ReadonlyArray<[string, string]>): string {
  return `{ ${pieces.map(([key, literal]) => `${key_literal(key)} = ${literal}`).join(', ')} }`
}

// Units stand beside the field; in the name of a key they are its last word.
const unit_endings = /(?<!usb)_(v|a|h|c|w|l|m|gb|dba|frac|hz|fps|days)$/
const labels: Readonly<Record<string, string>> = { saved_frac: 'money saved' }
/** `offers not older than`, `mains`, `energy price`. */
export const name_words = (name: string) =>
  labels[name] ?? name.replace(unit_endings, '').replaceAll('_', ' ').replace('kwh price', 'energy price')

export interface Placed {
  place: KeyPlace
  spec: KeySpec
}
