// Which absent cells to look up first: what they would settle of the verdicts that are unknown.
// Counted as `rigproof check` counts (docs/decisions/0006-what-to-look-up-first.md), over one build.
import type { Claim, Missing } from '../../lib/json/common'

export interface Absent extends Missing {
  key: string
  /** Verdicts it would settle by itself. */
  alone: number
  /** Unknown verdicts that name it; those that name several are shared between them for the order. */
  named: number
  share: number
  claims: Claim[]
}

export const cell_key = (cell: Pick<Missing, 'table' | 'row' | 'column'>) => `${cell.table},${cell.row},${cell.column}`

export function absent_cells(claims: readonly Claim[]): Absent[] {
  const found = new Map<string, Absent>()
  for (const claim of claims) {
    if (claim.verdict !== 'unknown') continue
    const cells = [...new Map(claim.missing.map((cell) => [cell_key(cell), cell])).entries()]
    for (const [key, cell] of cells) {
      const absent = found.get(key) ?? { ...cell, key, alone: 0, named: 0, share: 0, claims: [] }
      absent.named += 1
      absent.share += 1 / cells.length
      absent.alone += cells.length === 1 ? 1 : 0
      absent.claims.push(claim)
      found.set(key, absent)
    }
  }
  return [...found.values()].sort(
    (a, b) => b.share - a.share || b.alone - a.alone || (a.key < b.key ? -1 : 1)
  )
}

/** `settles 2 verdicts by itself`, `one of several that 3 verdicts wait for`. */
export function settles_words({ alone, named }: Pick<Absent, 'alone' | 'named'>): string {
  const verdicts = (count: number) => (count === 1 ? '1 verdict' : `${count} verdicts`)
  if (alone === 0) return `one of several that ${verdicts(named)} ${named === 1 ? 'waits' : 'wait'} for`
  const rest = named - alone
  return `settles ${verdicts(alone)} by itself${rest > 0 ? `, and is one of several for ${rest} more` : ''}`
}

/** Its place in the parts table; a row that is not there at all has no column. */
export function cell_path({ table, row, column }: Pick<Missing, 'table' | 'row' | 'column'>): string {
  const query = new URLSearchParams({ row, ...(column === '*' ? {} : { column }) })
  return `/parts/${encodeURIComponent(table)}?${query}`
}
