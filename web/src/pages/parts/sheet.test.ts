// A small table with a draft over it: what the grid changes, what is sent, where problems stand, what is
// left after writing and after somebody else wrote.
import { expect, it } from 'vitest'
import type { RowEdit, Table } from '../../lib/documents'
import { cells_at, draft_at, edits_of, lines_of, no_draft, row_name, said_of, text_at, view_of, with_changes, without_rows, type SheetDraft } from './sheet_draft'
import { known_wrong, with_known } from './sheet_known'
import { column_of, lines_when_sent, placed } from './sheet_lines'
import { add_again, after_written, keep_mine, rebased, take_theirs } from './sheet_merge'

const table = (rows: string[][], revision = 'r1', lines = rows.map((_, i) => i + 2)): Table => ({
  name: 'gpu', revision, columns: ['id', 'length_mm', 'side'], rows: rows.map((cells, i) => ({ line: lines[i] ?? 0, cells }))
})
const small = table([['a', '10', 'top'], ['b', '20', 'end'], ['c', '30', '']])
const view = (draft: SheetDraft, of = small) => view_of(of, draft, lines_of(of))
const written = (changes: Array<[row: number, column: number, text: string]>, of = small, draft = no_draft) =>
  with_changes(view(draft, of), changes.map(([row, column, text]) => ({ row, column, text })))

/** What the server does with edits (app/edit_table.cpp), for one-line cells and no blank lines. */
function make(of: Table, edits: readonly RowEdit[]): Table {
  const cells = of.rows.flatMap(({ line, cells }) => {
    const edit = edits.find((each) => each.line === line)
    if (edit?.remove) return []
    return [of.columns.map((name, i) => edit?.cells?.[name] ?? cells[i] ?? '')]
  })
  const added = edits.filter(({ line }) => line === 0).map(({ cells }) => of.columns.map((name) => cells?.[name] ?? ''))
  return table([...cells, ...added], 'r2')
}

it('turns changed cells into edits of their rows', () => {
  const draft = written([[0, 1, '11'], [0, 2, 'end'], [2, 1, '31']])
  expect(edits_of(draft).edits).toEqual([
    { line: 2, cells: { length_mm: '11', side: 'end' } },
    { line: 4, cells: { length_mm: '31' } }
  ])
  expect(text_at(view(draft), 0, 1)).toBe('11')
  expect(text_at(view(draft), 1, 1)).toBe('20')
  expect(said_of(draft.rows)).toBe('3 cells of 2 rows changed')
})

it('a cell put back to what the file says is no change', () => {
  const draft = written([[0, 1, '11']])
  expect(with_changes(view(draft), [{ row: 0, column: 1, text: '10' }]).rows).toEqual([])
})

it('rows behind the last are new, in the order in which they were pasted', () => {
  const draft = written([[3, 0, 'd'], [4, 0, 'e'], [4, 1, '50\n']])
  expect(edits_of(draft).edits).toEqual([{ line: 0, cells: { id: 'd' } }, { line: 0, cells: { id: 'e', length_mm: '50' } }])
  const shown = view(draft)
  expect(shown.rows).toBe(6)
  expect(cells_at(shown, 4)).toEqual(['e', '50', ''])
  expect([2, 3, 5].map((row) => row_name(shown, row))).toEqual(['4', 'new', '+'])
  const again = with_changes(shown, [{ row: 3, column: 0, text: '' }])
  expect(edits_of(again).edits).toEqual([{ line: 0, cells: { id: 'e', length_mm: '50' } }])
})

it('removes rows of the file and drops new ones; writing into a removed row keeps it', () => {
  const draft = written([[3, 0, 'd'], [1, 1, '21']])
  const less = without_rows(view(draft), [1, 3])
  expect(edits_of(less).edits).toEqual([{ line: 3, remove: true }])
  expect(said_of(less.rows)).toBe('1 row removed')
  expect(edits_of(with_changes(view(less), [{ row: 1, column: 1, text: '22' }])).edits).toEqual([{ line: 3, cells: { length_mm: '22' } }])
})

it('finds the lines of the file as it would be', () => {
  // Line 3 is blank; the row of line 5 has a cell over two lines.
  const of = table([['a', '10', ''], ['b', '20', ''], ['c', 'x\ny', ''], ['d', '40', '']], 'r1', [2, 4, 5, 7])
  const at = (draft: SheetDraft) => [...lines_when_sent(of, 3, edits_of(draft).sent)].map(([line, source]) => [line, 'row' in source ? source.row : 'new'])
  expect(at(no_draft)).toEqual([[2, 0], [4, 1], [5, 2], [7, 3]])
  // A removed row takes its line with it.
  expect(at(without_rows(view(no_draft, of), [2]))).toEqual([[2, 0], [4, 1], [5, 3]])
  // Written anew, a row loses the blank line before it; new rows come last.
  expect(at(written([[1, 1, '21'], [4, 0, 'e']], of))).toEqual([[2, 0], [3, 1], [4, 2], [6, 3], [7, 'new']])
  // A column the file does not have makes every row anew.
  expect([...lines_when_sent(of, 2, edits_of(written([[0, 2, 'top']], of)).sent).keys()]).toEqual([2, 3, 4, 6])
})

it('puts problems at their cells, by name or by place in the line', () => {
  expect(column_of({ place: '', text: 'length_mm is negative' }, small.columns, ['a', '-1', 'top'])).toBe(1)
  // `a,"x,y",top`: the third cell begins at character 9.
  expect(column_of({ place: '', column: 9, text: 'no such choice' }, small.columns, ['a', 'x,y', 'top'])).toBe(2)
  expect(column_of({ place: '', column: 3, text: 'bad' }, small.columns, ['a', 'x,y', 'top'])).toBe(1)
  expect(column_of({ place: '', text: 'bad' }, small.columns, ['a', '', ''])).toBe(-1)

  const draft = without_rows(view(written([[1, 1, 'abc'], [3, 0, 'd']])), [0])
  const { sent } = edits_of(draft)
  const got = placed(
    [
      { place: '/x/gpu.csv', line: 2, column: 3, text: 'length_mm is not a number' },
      { place: '/x/gpu.csv', line: 4, column: 1, text: 'name is not there' },
      { place: '/x/offers.csv', line: 2, column: 1, text: 'part: there is no a' }
    ],
    small, 3, sent, (n) => small.rows.length + view(draft).added.findIndex((row) => row.n === n), (row) => cells_at(view(draft), row)
  )
  expect([...got.cells]).toEqual([['1,1', 'length_mm is not a number'], ['3,0', 'name is not there']])
  expect(got.others.map(({ text }) => text)).toEqual(['part: there is no a'])
  expect(got.wrong).toEqual(new Set([draft_at(view(draft), 1)?.n, draft_at(view(draft), 3)?.n]))
})

it('after writing only what was written meanwhile is left', () => {
  const first = without_rows(view(written([[1, 1, '21'], [3, 0, 'd']])), [0])
  const { edits, sent } = edits_of(first)
  const now = make(small, edits)
  expect(now.rows.map(({ cells }) => cells[0])).toEqual(['b', 'c', 'd'])
  expect(after_written(first, sent, small, now)?.rows).toEqual([])

  // While that was under way: the new row got a length, another row was changed, one was changed back.
  const later = with_changes(view(first), [
    { row: 3, column: 1, text: '44' }, { row: 2, column: 1, text: '33' }, { row: 1, column: 1, text: '20' }, { row: 1, column: 2, text: 'top' }
  ])
  const left = after_written(later, sent, small, now)
  expect(left && edits_of(left).edits).toEqual([
    { line: 2, cells: { side: 'top' } },
    { line: 4, cells: { length_mm: '44' } },
    { line: 3, cells: { length_mm: '33' } }
  ])
  expect(after_written(first, sent, small, small)).not.toBe(null)
  expect(after_written(first, sent, small, table([['b', '21', 'end']]))).toBe(null)
})

it('keeps both where two wrote, and asks; else carries on', () => {
  const draft = written([[0, 1, '11'], [1, 1, '21'], [2, 2, 'top']])
  // Somebody else: a new first row, another length for b, c removed.
  const now = table([['z', '5', ''], ['a', '10', 'end'], ['b', '99', 'end']], 'r2')
  const got = rebased(draft, small.columns, now, [0])
  expect(got.rows.map(({ line, theirs, gone }) => [line, theirs, gone])).toEqual([
    [3, undefined, undefined], [4, { length_mm: '99' }, undefined], [4, undefined, true]
  ])
  expect(edits_of(got).edits).toEqual([{ line: 3, cells: { length_mm: '11' } }])
  const b = got.rows[1]?.n ?? 0
  expect(edits_of(keep_mine(got, b, 'length_mm')).edits).toContainEqual({ line: 4, cells: { length_mm: '21' } })
  expect(take_theirs(got, b, 'length_mm').rows.map(({ n }) => n)).not.toContain(b)
  const c = got.rows[2]?.n ?? 0
  expect(edits_of(add_again(got, c, small.columns)).edits).toContainEqual({ line: 0, cells: { id: 'c', length_mm: '30', side: 'top' } })

  const elsewhere = rebased(got, now.columns, table([['b', '99', 'end'], ['q', '1', '']], 'r3'), [0])
  expect(elsewhere.rows[1]?.theirs).toEqual({ length_mm: '99' })

  // What is not chosen yet stays to be chosen when the file changes once more, elsewhere.
  const later = rebased(got, now.columns, table([['b', '98', 'end']], 'r3'), [0])
  expect(later.rows[1]?.theirs).toEqual({ length_mm: '98' })
  expect(later.rows[0]?.gone).toBe(true)
})

it('asks for a second cell without forgetting the first', () => {
  const draft = written([[1, 1, '21'], [1, 2, 'top']])
  const first = rebased(draft, small.columns, table([['b', '99', 'end']], 'r2'), [0])
  expect(first.rows.map(({ theirs }) => theirs)).toEqual([{ length_mm: '99' }])
  const second = rebased(first, small.columns, table([['b', '99', 'none']], 'r3'), [0])
  expect(second.rows.map(({ theirs }) => theirs)).toEqual([{ length_mm: '99', side: 'none' }])
})

it('what both wrote the same is no draft any more', () => {
  const draft = written([[0, 1, '11']])
  expect(rebased(draft, small.columns, table([['a', '11', 'top']], 'r2'), [0]).rows).toEqual([])
})

it('cells known to be wrong stay marked while their row cannot be read, until they say something else', () => {
  // The service reads a row's own values first, and what it refers to only when these are right.
  const told = (text: string, column: number) => ({ place: '/x/gpu.csv', line: 2, column, text })
  const place = (draft: SheetDraft, problems: Parameters<typeof placed>[0]) =>
    placed(problems, small, 3, edits_of(draft).sent, (n) => n, (row) => cells_at(view(draft), row))
  const first = written([[0, 0, 'nobody']])
  const bad_id = place(first, [told('there is no such part', 1)])
  const known = known_wrong(with_known(bad_id, [], view(first)), view(first))
  const second = with_changes(view(first), [{ row: 0, column: 1, text: '7x' }])
  const bad_length = place(second, [told('not a number', 8)])
  expect([...bad_length.cells.keys()]).toEqual(['0,1'])
  const both = with_known(bad_length, known, view(second))
  expect([...both.cells]).toEqual([['0,1', 'not a number'], ['0,0', 'there is no such part']])
  expect(both.count).toBe(2)
  const mended = with_changes(view(second), [{ row: 0, column: 0, text: 'z' }])
  expect(with_known(place(mended, [told('not a number', 3)]), known, view(mended)).count).toBe(1)
  expect(with_known(place(second, []), known, view(second)).cells.size).toBe(0)
})
