// What the title block says of the brief that a build is judged under.
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

export async function facts_of_brief(id: string): Promise<BriefFacts> {
  if (!id) return {}
  try {
    return brief_facts((await read_document(id)).text)
  } catch {
    return {}
  }
}
