// Where a radiator, fans or a drive of a build could sit: read from the catalog's tables when asked.
import { parts_of } from '../../lib/build_text'
import { read_table, type Table } from '../../lib/documents'

export interface PlaceChoice {
  /** Of `[mounts]`: `cooler`, `fan`, or a drive's id. */
  what: string
  /** As a person says it: `Radiator`, `Fans of the case`, a drive's name. */
  says: string
  /** Names of places, as the tables have them, with what is said of each. */
  places: Array<{ name: string; says: string }>
}

type Cells = Record<string, string>

export function rows_of({ columns, rows }: Pick<Table, 'columns' | 'rows'>, column: string, value: string): Cells[] {
  const at = columns.indexOf(column)
  if (at < 0) return []
  return rows
    .filter(({ cells }) => cells[at] === value)
    .map(({ cells }) => Object.fromEntries(columns.map((name, i) => [name, cells[i] ?? ''])))
}

const of_millimetres = (text: string | undefined, name: string) =>
  text && text !== 'none' ? `${name} of ${text.split('|').join(', ')} mm` : ''
function mount_words(cells: Cells): string {
  const said = [
    cells.fan_places && cells.fan_sizes_mm ? `${cells.fan_places} × ${cells.fan_sizes_mm.split('|').join(' or ')} mm fans` : '',
    of_millimetres(cells.radiators_mm, 'radiators')
  ]
  return said.filter(Boolean).join('; ')
}
function socket_words(cells: Cells): string {
  const said = [
    cells.lengths_mm ? `drives of ${cells.lengths_mm.split('|').join(', ')} mm` : '',
    cells.pcie_generation && cells.pcie_lanes ? `generation ${cells.pcie_generation} x${cells.pcie_lanes}` : '',
    cells.shares_slot && cells.shares_slot !== '0' ? `shares lanes with slot ${cells.shares_slot}` : ''
  ]
  return said.filter(Boolean).join('; ')
}

export interface Asks {
  /** There is a radiator to place. */
  radiator: boolean
  /** There are added fans to place. */
  fans: boolean
}

export async function place_choices(text: string, { radiator, fans }: Asks): Promise<PlaceChoice[]> {
  const chassis = parts_of(text, 'case').at(0)?.id
  const board = parts_of(text, 'board').at(0)?.id
  const drives = parts_of(text, 'storage')
  const [mounts, sockets, storage] = await Promise.all([
    chassis && (radiator || fans) ? read_table('case_mounts') : null,
    board && drives.length > 0 ? read_table('board_m2') : null,
    board && drives.length > 0 ? read_table('storage') : null
  ])
  const out: PlaceChoice[] = []
  if (mounts && chassis) {
    const places = rows_of(mounts, 'case', chassis).map((cells) => ({ name: cells.mount ?? '', says: mount_words(cells) }))
    if (radiator) out.push({ what: 'cooler', says: 'Radiator', places })
    if (fans) out.push({ what: 'fan', says: 'Added fans', places })
  }
  if (sockets && storage && board) {
    const places = rows_of(sockets, 'board', board).map((cells) => ({ name: cells.socket ?? '', says: socket_words(cells) }))
    for (const { id } of drives) {
      const [drive] = rows_of(storage, 'id', id)
      if (drive?.mounting?.startsWith('M.2')) out.push({ what: id, says: drive.name ?? id, places })
    }
  }
  return out.filter(({ places }) => places.length > 0)
}
