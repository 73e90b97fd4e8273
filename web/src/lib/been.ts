// Which stations of the job somebody looked at in this browser, of which brief and of which build: what the
// job line may mark. Nothing is marked that nobody opened.

export type Station = 'brief' | 'plan' | 'claims' | 'case' | 'air' | 'parts' | 'sheet'
export interface Bench {
  brief: string
  build: string
}

const of_brief: readonly string[] = ['brief', 'plan']
const stations: readonly string[] = ['brief', 'plan', 'claims', 'case', 'air', 'parts', 'sheet']
/** Older ones are forgotten. */
const most = 200

/** `plan k42urt5icu`; null where the page shows no brief and no build. */
export function mark_of(page: string, { brief, build }: Bench): string | null {
  if (!stations.includes(page)) return null
  if (page === 'parts') return page
  const id = of_brief.includes(page) ? brief : build
  return id === '' ? null : `${page} ${id}`
}

export function is_marked(marks: readonly string[], page: Station, bench: Bench): boolean {
  const mark = mark_of(page, bench)
  return mark !== null && marks.includes(mark)
}

/** The marks with one more, newest last. */
export function with_mark(marks: readonly string[], mark: string): readonly string[] {
  return marks.at(-1) === mark ? marks : [...marks.filter((each) => each !== mark), mark].slice(-most)
}

/** As a browser kept them; anything else is none. */
export function read_marks(text: string | null): readonly string[] {
  try {
    const found: unknown = JSON.parse(text ?? '[]')
    return Array.isArray(found) ? found.filter((each): each is string => typeof each === 'string').slice(-most) : []
  } catch {
    return []
  }
}
