// What the title block says of a brief: read from its text.
import { read_document } from '../../lib/documents'
import { read_toml } from '../../lib/toml_edit'

export interface BriefHeads {
  name: string
  as_of?: string
  markets: string[]
}

export function heads_of(name: string, text: string): BriefHeads {
  const toml = read_toml(text)
  const brief = toml?.brief
  const day = typeof brief === 'object' && brief !== null && 'as_of' in brief ? brief.as_of : null
  const as_of = day instanceof Date ? day.toISOString() : ''
  const markets = Array.isArray(toml?.markets) ? toml.markets : []
  const date = /^\d{4}-\d{2}-\d{2}/.exec(as_of)?.[0]
  return {
    name,
    ...(date ? { as_of: date } : {}),
    markets: markets.flatMap((each: unknown) =>
      typeof each === 'object' && each !== null && 'market' in each && typeof each.market === 'string' ? [each.market] : []
    )
  }
}

/** Null where there is no such brief: the question about it says why. */
export async function brief_heads(id: string, signal?: AbortSignal): Promise<BriefHeads | null> {
  if (!id) return null
  try {
    const { name, text } = await read_document(id, undefined, signal)
    return heads_of(name, text)
  } catch {
    return null
  }
}
