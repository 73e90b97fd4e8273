// What a build is held against: an earlier revision of it, or another build.
import { read_document } from '../../lib/documents'

export interface OtherBuild {
  name: string
  text: string
  /** `revision 3`, or the other build's name. */
  called: string
}

/** In: a revision's number or a build's id. Null where it is not there. */
export async function other_build(id: string, against: string, signal: AbortSignal): Promise<OtherBuild | null> {
  const revision = /^\d{1,9}$/.test(against) ? Number(against) : null
  try {
    const found = revision === null ? await read_document(against, undefined, signal) : await read_document(id, revision, signal)
    if (found.kind !== 'build') return null
    return { name: found.name, text: found.text, called: revision === null ? found.name : `revision ${revision}` }
  } catch {
    return null
  }
}
