// The address of a page as it would be with some of its query changed.
export type QueryChanges = Record<string, string | readonly string[] | null>

export function changed_query(query: URLSearchParams, changes: QueryChanges): string {
  const next = new URLSearchParams(query)
  for (const [name, value] of Object.entries(changes)) {
    next.delete(name)
    if (value === null) continue
    for (const each of typeof value === 'string' ? [value] : value) next.append(name, each)
  }
  const text = next.toString()
  return text ? `?${text}` : ''
}

/** Only these of a query: what another page is to know as well. */
export function kept_query(query: URLSearchParams, names: readonly string[], more: Record<string, string> = {}): string {
  const next = new URLSearchParams()
  for (const name of names) for (const value of query.getAll(name)) next.append(name, value)
  for (const [name, value] of Object.entries(more)) next.set(name, value)
  const text = next.toString()
  return text ? `?${text}` : ''
}
