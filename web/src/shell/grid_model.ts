// The table's arithmetic, without a page: ranges, tab-separated blocks, which rows are drawn.

export interface CellAt {
  row: number
  column: number
}
export interface CellChange extends CellAt {
  text: string
}
export interface CellRange {
  top: number
  left: number
  bottom: number
  right: number
}

/** Columns that lie wholly or in part beyond the right edge. In: their widths; the first `head_px` never scroll. */
export function beyond_right(widths_px: readonly number[], head_px: number, scroll_px: number, wide_px: number): number {
  let right = head_px
  let inside = 0
  for (const width of widths_px) {
    right += width
    // A pixel may go to rounding.
    if (right <= scroll_px + wide_px + 1) inside += 1
  }
  return widths_px.length - inside
}

/** Their names, the first few of them. */
export function beyond_words(names: readonly string[]): string {
  const more = names.length - 7
  return more > 1 ? `${names.slice(0, 7).join(', ')} and ${more} more` : names.join(', ')
}

/** Where the words about a cell go: under it, or over it where the next row is being written in; inside what is in sight. */
export function words_at(
  cell: CellAt & { left_px: number }, active: CellAt, row_px: number, sight: { left: number; width: number }, words_px: number
): { left: number; top: number; over: boolean } {
  const over = active.row > cell.row && cell.row > 0
  const below = Math.max(cell.row, active.row > cell.row ? active.row : cell.row) + 1
  return {
    left: Math.max(sight.left, Math.min(cell.left_px, sight.left + sight.width - words_px)),
    top: (over ? cell.row : below) * row_px,
    over
  }
}

export function range_of(a: CellAt, b: CellAt): CellRange {
  return {
    top: Math.min(a.row, b.row),
    left: Math.min(a.column, b.column),
    bottom: Math.max(a.row, b.row),
    right: Math.max(a.column, b.column)
  }
}
export function holds(range: CellRange, at: CellAt): boolean {
  return at.row >= range.top && at.row <= range.bottom && at.column >= range.left && at.column <= range.right
}

/**
 * Rows and cells of a pasted block: tabs between cells, line ends between rows; a cell in double
 * quotes may hold both, a quote in it is doubled. A line end at the very end begins no row.
 */
export function read_block(text: string): string[][] {
  const rows: string[][] = [[]]
  let cell = ''
  let quoted = false
  const end_cell = () => {
    rows[rows.length - 1]?.push(cell)
    cell = ''
  }
  for (let i = 0; i < text.length; i += 1) {
    const c = text[i] ?? ''
    if (quoted) {
      if (c !== '"') cell += c
      else if (text[i + 1] === '"') {
        cell += '"'
        i += 1
      } else quoted = false
    } else if (c === '"' && cell === '' && closes(text, i)) quoted = true
    else if (c === '\t') end_cell()
    else if (c === '\n' || c === '\r') {
      if (c === '\r' && text[i + 1] === '\n') i += 1
      end_cell()
      rows.push([])
    } else cell += c
  }
  end_cell()
  const last = rows[rows.length - 1]
  if (rows.length > 1 && last?.length === 1 && last[0] === '') rows.pop()
  return rows
}

// A quote opens a quoted cell only when its partner stands before a tab, a line end or the end.
function closes(text: string, from: number): boolean {
  for (let i = from + 1; i < text.length; i += 1) {
    if (text[i] !== '"') continue
    if (text[i + 1] === '"') i += 1
    else return i + 1 === text.length || /[\t\r\n]/.test(text[i + 1] ?? '')
  }
  return false
}

export function write_block(rows: readonly (readonly string[])[]): string {
  const cell = (text: string) => (/[\t\r\n"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)
  return rows.map((row) => row.map(cell).join('\t')).join('\n')
}

/**
 * Where a block goes: from the range's first cell; a single cell fills the whole range. What lies
 * outside the table is left out and counted.
 */
export function place_block(
  block: readonly (readonly string[])[],
  range: CellRange,
  rows: number,
  columns: number
): { changes: CellChange[]; left_out: number } {
  const changes: CellChange[] = []
  let left_out = 0
  const single = block.length === 1 && block[0]?.length === 1 ? block[0][0] : undefined
  if (single !== undefined) {
    for (let row = range.top; row <= range.bottom; row += 1)
      for (let column = range.left; column <= range.right; column += 1)
        changes.push({ row, column, text: single })
    return { changes, left_out }
  }
  for (const [i, line] of block.entries())
    for (const [k, text] of line.entries()) {
      const at = { row: range.top + i, column: range.left + k }
      if (at.row < rows && at.column < columns) changes.push({ ...at, text })
      else left_out += 1
    }
  return { changes, left_out }
}

/** The rows that are drawn for a window onto the table, with some beyond it on both sides. */
export function rows_shown(
  scroll_px: number,
  height_px: number,
  row_px: number,
  rows: number,
  beyond = 8
): { from: number; to: number } {
  const from = Math.max(0, Math.floor(scroll_px / row_px) - beyond)
  const to = Math.min(rows, Math.ceil((scroll_px + height_px) / row_px) + beyond)
  return { from: Math.min(from, Math.max(0, rows - 1)), to }
}
