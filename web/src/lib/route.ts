// A small router over the History API: paths with parameters and a query; links are followed without
// a reload; after each step the title changes and the page's h1 has the focus.

export interface Place {
  path: string
  query: URLSearchParams
  hash: string
}
export interface Found<Page> {
  page: Page
  parameters: Record<string, string>
  place: Place
}
export interface Route<Page> {
  /** `/claims/:build` */
  path: string
  page: Page
}

/** The parameters of a path that fits the pattern; null when it does not. */
export function match_path(pattern: string, path: string): Record<string, string> | null {
  const cut = (text: string) => text.replace(/\/+$/, '').split('/')
  const wanted = cut(pattern)
  const given = cut(path)
  if (wanted.length !== given.length) return null
  const parameters: Record<string, string> = {}
  for (const [i, piece] of wanted.entries()) {
    const has = given[i] ?? ''
    if (!piece.startsWith(':')) {
      if (piece !== has) return null
      continue
    }
    if (has === '') return null
    try {
      parameters[piece.slice(1)] = decodeURIComponent(has)
    } catch {
      return null
    }
  }
  return parameters
}

export function find_route<Page>(routes: ReadonlyArray<Route<Page>>, url: URL): Found<Page> | null {
  for (const { path, page } of routes) {
    const parameters = match_path(path, url.pathname)
    if (parameters)
      return { page, parameters, place: { path: url.pathname, query: url.searchParams, hash: url.hash } }
  }
  return null
}

/** `/claims/a%20b?at=fit.x`: the path of a pattern with its parameters and a query. */
export function path_to(
  pattern: string,
  parameters: Record<string, string> = {},
  query: Record<string, string | undefined> = {}
): string {
  const path = pattern.replace(/:([a-z_]+)/g, (_, name: string) => encodeURIComponent(parameters[name] ?? ''))
  const pairs = Object.entries(query).filter((pair): pair is [string, string] => pair[1] !== undefined)
  const text = new URLSearchParams(pairs).toString()
  return text ? `${path}?${text}` : path
}

/** A link this router follows itself: same place of origin, plain click, no target, no download. */
export function followed(event: MouseEvent, origin: string): URL | null {
  if (event.defaultPrevented || event.button !== 0) return null
  if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return null
  const link = event.composedPath().find((node): node is HTMLAnchorElement => node instanceof HTMLAnchorElement)
  if (!link || !link.href || link.hasAttribute('download')) return null
  if (link.target && link.target !== '_self') return null
  const url = new URL(link.href)
  if (url.origin !== origin || url.pathname.startsWith('/api/')) return null
  return url
}

export interface Router<Page> {
  go(path: string, how?: { replace?: boolean; keep_focus?: boolean }): void
  /** Ends listening. */
  end(): void
  find(): Found<Page> | null
}

/**
 * Calls `on_change` now and after each step. Who shows the page calls announce() once its heading is
 * there; not at first, and not where `keep_focus` is said.
 */
export function start_router<Page>(
  routes: ReadonlyArray<Route<Page>>,
  on_change: (found: Found<Page> | null, first: boolean, keep_focus: boolean) => void
): Router<Page> {
  const find = () => find_route(routes, new URL(location.href))
  const changed = (keep_focus: boolean) => on_change(find(), false, keep_focus)

  function go(path: string, how: { replace?: boolean; keep_focus?: boolean } = {}) {
    if (how.replace) history.replaceState(null, '', path)
    else history.pushState(null, '', path)
    if (!how.keep_focus && !location.hash) scrollTo(0, 0)
    changed(how.keep_focus ?? false)
  }
  function on_click(event: MouseEvent) {
    const url = followed(event, location.origin)
    if (!url) return
    const same_page = url.pathname === location.pathname && url.search === location.search
    if (same_page && url.hash) return
    if (!find_route(routes, url)) return
    event.preventDefault()
    go(url.pathname + url.search + url.hash, { replace: same_page })
  }
  const on_pop = () => changed(false)
  document.addEventListener('click', on_click)
  addEventListener('popstate', on_pop)
  on_change(find(), true, false)
  return {
    go,
    find,
    end() {
      document.removeEventListener('click', on_click)
      removeEventListener('popstate', on_pop)
    }
  }
}

/** After a step: the window's title, and focus on the page's h1, so that it is read aloud. */
export function announce(title: string, focus = true): void {
  document.title = title === '' ? 'Rigproof' : `${title} - Rigproof`
  if (!focus) return
  const heading = document.querySelector<HTMLElement>('main h1')
  if (!heading) return
  heading.tabIndex = -1
  heading.focus({ preventScroll: true })
}
