// Values measured on the parts, as the address and the questions carry them (docs/measured.md):
// `TABLE,ROW,COLUMN,VALUE` with the half-width behind it where one was given.
import type { Claim, WorkingCell } from '../../lib/json/common'
import { nearer } from '../../lib/order'
import { cell_meaning, is_quantity, spread_of, unit_words, value_words, with_unit } from '../../lib/words'
import { cell_key } from './look_up'

export interface MeasuredLine {
  line: string
  key: string
  table: string
  row: string
  column: string
  value: string
  /** Empty: half a millimetre for lengths, the column's own tolerance for all else. */
  half_width: string
}

/** Null for what is no such line. */
export function read_line(line: string): MeasuredLine | null {
  const [table = '', row = '', column = '', value = '', half_width = '', ...more] = line.split(',').map((cell) => cell.trim())
  if (more.length > 0 || [table, row, column, value].includes('')) return null
  return { line, key: cell_key({ table, row, column }), table, row, column, value, half_width }
}

/** What a person types for a number, with a point or a comma; null when it is none. */
export function read_number(text: string): string | null {
  const plain = text.trim().replace(',', '.')
  return /^-?(\d+(\.\d*)?|\.\d+)$/.test(plain) ? plain : null
}

/** The lines with this cell as measured, in place of what was said of it before. */
export function with_measured(lines: readonly string[], key: string, value: string, half_width: string): string[] {
  const line = [key, value, ...(half_width ? [half_width] : [])].join(',')
  return [...lines.filter((each) => read_line(each)?.key !== key), line]
}

export interface MeasurableCell {
  key: string
  /** Whose it is, by name. */
  part: string
  meaning: string
  unit: string
  /** What the catalog says, with its half-width; `absent`. */
  now: string
}

// Cells of these tables are agreed, offered or stated; there is nothing to hold a rule against.
const not_measured = new Set(['', 'offers', 'titles', 'sellers', 'bundles', 'tariffs', 'results', 'provenance'])

/** A number with a unit: plain counts are read off, not measured. */
const in_unit = ({ value }: WorkingCell) => is_quantity(value) && value.unit !== ''
const now_words = (cell: WorkingCell) => value_words(cell.value) + (cell.certainty ? `, ${cell.certainty}` : '')

/** Cells that went into claims, or are missing in them: those of the claims nearest to failing first. */
export function measurable_cells(claims: readonly Claim[]): MeasurableCell[] {
  const found = new Map<string, MeasurableCell>()
  for (const claim of [...claims].sort(nearer)) {
    for (const cell of claim.working?.cells ?? []) {
      const key = cell_key(cell)
      if (found.has(key) || not_measured.has(cell.table) || !in_unit(cell) || cell.column === '*') continue
      found.set(key, {
        key, part: cell.part || cell.row, meaning: cell.meaning || cell.column,
        unit: is_quantity(cell.value) ? unit_words(2, cell.value.unit) : '', now: now_words(cell)
      })
    }
    for (const cell of claim.missing) {
      const key = cell_key(cell)
      if (found.has(key) || not_measured.has(cell.table) || cell.column === '*') continue
      found.set(key, { key, part: cell.row, meaning: cell.column, unit: '', now: 'absent' })
    }
  }
  return [...found.values()]
}

/** The cell a claim is unsure of: the first that is not certain. Empty where all of them are. */
export function unsure_cell(claim: Claim): string {
  const absent = claim.missing.find(({ table, column }) => !not_measured.has(table) && column !== '*')
  if (absent) return cell_key(absent)
  const cell = claim.working?.cells.find(
    (each) =>
      in_unit(each) && is_quantity(each.value) && spread_of(each.value) !== null && !not_measured.has(each.table) && each.column !== '*'
  )
  return cell ? cell_key(cell) : ''
}

/** The measured cells that went into a claim, but for the one it claims: that stands in its bar. */
export function measured_in(claim: Claim, keys: ReadonlySet<string>): WorkingCell[] {
  const in_bar = (cell: WorkingCell) => cell.claimed === true && claim.measured !== undefined
  return keys.size === 0 ? [] : (claim.working?.cells ?? []).filter((cell) => keys.has(cell_key(cell)) && !in_bar(cell))
}
/** `131.5 mm, plus-minus 0.5 mm`: all digits that were read. */
export function read_words({ value, certainty }: WorkingCell): string {
  const middle = is_quantity(value) ? with_unit(value.value, value.unit) : value.text
  return certainty ? `${middle}, ${certainty}` : middle
}
export function seen_words(cells: readonly WorkingCell[]): string {
  return `rests on what was measured: ${cells.map((cell) => `${cell_meaning(cell)}, ${read_words(cell)}`).join('; ')}`
}
