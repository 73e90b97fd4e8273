// Tables that are read beside the one that is shown, kept until the catalog changes; and which kind a
// part is of.
import { part_names, read_table, workshop, type Table } from '../../lib/documents'
import { bench } from '../../lib/bench.svelte'

const tables = new Map<string, Promise<Table>>()
/** A part as a cell that holds its id means it. */
export interface KnownPart {
  kind: string
  name: string
}
let parts: Promise<Map<string, KnownPart>> | null = null

export function kept_table(name: string): Promise<Table> {
  const kept = tables.get(name)
  if (kept) return kept
  const asked = read_table(name).catch((error: unknown) => {
    tables.delete(name)
    throw error
  })
  tables.set(name, asked)
  return asked
}

/** Kind and name of every part, by id. */
export function known_parts(kinds: readonly string[]): Promise<Map<string, KnownPart>> {
  parts ??= Promise.all(
    kinds.map(async (kind) => (await part_names(kind)).map(({ id, name }) => [id, { kind, name: name ?? '' }] as const))
  ).then(
    (all) => new Map(all.flat()),
    (error: unknown) => {
      parts = null
      throw error
    }
  )
  return parts
}

/** After the catalog has changed: this table only, or any. */
export function forget_tables(name?: string): void {
  parts = null
  if (name === undefined) tables.clear()
  else tables.delete(name)
}

/** Looks whether the catalog is still the one on the bench; true: it was not. */
export async function catalog_moved(): Promise<boolean> {
  const now = await workshop()
  const moved = now.revision !== bench.workshop?.revision || now.trouble !== bench.workshop.trouble
  bench.workshop = now
  return moved
}
