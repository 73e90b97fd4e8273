// A first mapping for a table that was pasted, and what the import says of places in both texts.
import type { Trouble } from '../../lib/api'
import type { TableSpec as TableForm } from '../../lib/forms'

const separators = ['\t', ';', ','] as const

/** Tabs win, then the more frequent of semicolon and comma: as the import finds it out. */
export function separator_of(line: string): string {
  if (line.includes('\t')) return '\t'
  const count = (mark: string) => line.split(mark).length
  return separators.slice(1).reduce((best, mark) => (count(mark) > count(best) ? mark : best), ',')
}

/** A line's cells; a quoted one may hold the mark. */
export function cells_of_line(line: string, mark: string): string[] {
  const out: string[] = []
  let cell = ''
  let quoted = false
  for (let i = 0; i < line.length; i += 1) {
    const c = line[i] ?? ''
    if (quoted) {
      if (c !== '"') cell += c
      else if (line[i + 1] === '"') {
        cell += '"'
        i += 1
      } else quoted = false
    } else if (c === '"' && cell === '') quoted = true
    else if (c === mark) {
      out.push(cell)
      cell = ''
    } else cell += c
  }
  return [...out, cell].map((each) => each.trim())
}

/** The cells of the first line that holds anything. */
export function header_of(text: string): string[] {
  const line = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/).find((each) => each.trim() !== '') ?? ''
  return cells_of_line(line, separator_of(line)).filter((each) => each !== '')
}

const toml_text = (text: string) => JSON.stringify(text)
const plain = (text: string) => text.toLowerCase().replace(/[^a-z0-9]+/g, '_').replace(/^_+|_+$/g, '')

// What lists call such columns.
const called: Readonly<Record<string, readonly string[]>> = {
  seller: ['shop', 'store', 'vendor'], market: ['country'], seen: ['date', 'day'], tax_included: ['tax', 'vat'], delivery_days: ['delivery'],
  warranty_months: ['warranty'], name: ['model', 'product'], maker: ['brand', 'manufacturer']
}

/** Header that goes by the column's name, with or without its unit, or by a word that lists use for it. */
function header_for(column: string, header: readonly string[]): string | undefined {
  const bare = column.replace(/_(mm|w|c|kg|a|v|gb|gib|dba|m|s|ms|pa|l|px|hz|mhz|rpm|frac)$/, '')
  const words = [column, bare, ...(called[column] ?? [])]
  return words.map((word) => header.find((each) => plain(each) === word)).find((found) => found !== undefined)
}

/** How a pasted row finds its part: the header, and what it holds. */
function match_for(table: TableForm, header: readonly string[]): { by: 'id' | 'maker_code'; from: string } | null {
  const code = header.find((each) => plain(each) === 'maker_code')
  if (table.kind) return code === undefined ? null : { by: 'maker_code', from: code }
  if (table.columns[0]?.refers === undefined) return null
  const id = header.find((each) => plain(each) === table.columns[0]?.name || plain(each) === 'id')
  if (id !== undefined) return { by: 'id', from: id }
  const from = code ?? header[0]
  return from === undefined ? null : { by: 'maker_code', from }
}

/** A mapping to begin with, right as it stands: what goes by the same name is read, the form asks for the rest. */
export function first_mapping(table: TableForm, header: readonly string[], today: string): string {
  const match = match_for(table, header)
  const lines = [
    '[mapping]',
    `table = ${toml_text(table.name)}`,
    '# decimal = "comma"          # when the table writes 8,90',
    '# thousands = "point"        # when it writes 1.049,00',
    '# dates = "dmy"              # when it writes 02.10.2026',
    ...(table.kind ? [] : ['# unmatched = "skip"         # leaves out rows of parts that are not in the catalog']),
    '',
    ...(match ? ['[match]', `by = "${match.by}"`, `from = ${toml_text(match.from)}`, ''] : []),
    '[provenance]',
    'source = "pasted table"      # say where it comes from',
    `seen = ${today}`,
    ''
  ]
  for (const [i, column] of table.columns.entries()) {
    if (match && i === 0 && !table.kind) continue
    const from = header_for(column.name, header)
    const name = header_for('name', header)
    const made = from === undefined && column.type === 'slug' ? name : undefined
    if (from === undefined && made === undefined) continue
    lines.push(`[columns.${column.name}]`.padEnd(28) + ` # ${column.meaning}`)
    if (from !== undefined) lines.push(`from = ${toml_text(from)}`)
    else if (made !== undefined) lines.push(`from = ${toml_text(made)}`, 'make = "slug"')
    lines.push('')
  }
  return `${lines.join('\n').trimEnd()}\n`
}

/** The places that an error's message names, one a line: `pasted:2:27: not a number...`. */
export function problems_in(message: string): { said: string; problems: Trouble[] } {
  const problems: Trouble[] = []
  const rest: string[] = []
  for (const line of message.split('\n')) {
    const found = /^(.*?[^:]):(\d+)(?::(\d+))?: (.+)$/.exec(line)
    if (!found) {
      if (line.trim() !== '') rest.push(line.trim())
      continue
    }
    const [, file = '', row = '', column, text = ''] = found
    problems.push({
      place: [file.split('/').at(-1), row, ...(column ? [column] : [])].join(':'), line: Number(row), text,
      ...(column ? { column: Number(column) } : {})
    })
  }
  return { said: rest.join(' '), problems }
}
