// What the title block says of a brief: read from its text.
import { read_document } from '../../lib/documents'
import { read_toml } from '../../lib/toml_edit'

export interface BriefFacts {
  as_of?: string
  markets?: string[]
}

const is_record = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null

export function brief_facts(text: string): BriefFacts {
  const root = read_toml(text)
  const head = root?.brief
  const as_of = is_record(head) && head.as_of instanceof Date ? head.as_of.toISOString().slice(0, 10) : undefined
  const list: unknown[] = Array.isArray(root?.markets) ? root.markets : []
  const markets = list.flatMap((each) => (is_record(each) && typeof each.market === 'string' ? [each.market] : []))
  return { ...(as_of ? { as_of } : {}), ...(markets.length > 0 ? { markets } : {}) }
}

/** Null where there is no such brief: the question about it says why. */
export async function facts_of_brief(id: string, signal?: AbortSignal): Promise<BriefFacts | null> {
  if (!id) return null
  try {
    return brief_facts((await read_document(id, undefined, signal)).text)
  } catch {
    return null
  }
}
