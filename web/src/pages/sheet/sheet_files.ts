// The files of a sheet: what each is for, and how large it is.
import { readable } from '../../lib/numbers'

export interface SheetJson {
  schema: 'rigproof.sheet/1'
  files: string[]
}

const about: Readonly<Record<string, string>> = {
  'sheet.html': 'the sheet itself: one file that stands alone, needs no network and runs no script',
  'sheet.md': 'the same in Markdown, for where only text may be posted',
  'parts.csv': 'the parts, one a row',
  'claims.csv': 'every claim with its value, interval, limit and source',
  'prices.csv': 'the price of each part in each market',
  'drawing.svg': 'the case in section, with its dimensions',
  'physics.json': 'the pictures of air and power as numbers'
}
export const about_file = (name: string) => about[name] ?? ''

export const file_path = (job: string, name: string, save = false) =>
  `/api/jobs/${encodeURIComponent(job)}/files/${encodeURIComponent(name)}${save ? '?save' : ''}`

/** The sheet for its frame: on the paper that was chosen in the pages; undefined: as the system has it. */
export const framed_path = (job: string, paper: string | undefined) =>
  file_path(job, 'sheet.html') + (paper ? `?paper=${encodeURIComponent(paper)}` : '')

/** `598 kB`: decimal, as drives count. */
export function size_words(bytes: number): string {
  if (bytes < 1000) return `${bytes} B`
  return bytes < 1e6 ? `${readable(bytes / 1000)} kB` : `${readable(bytes / 1e6)} MB`
}

/** Null where it cannot be read. */
export async function size_of(job: string, name: string, signal: AbortSignal): Promise<number | null> {
  try {
    const response = await fetch(file_path(job, name), { signal })
    return response.ok ? (await response.blob()).size : null
  } catch {
    return null
  }
}
