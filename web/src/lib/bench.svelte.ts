// What is on the bench: the workshop, the brief and the build one works with, what the title block says.
import { documents, with_saved, workshop, type DocumentHead, type Workshop } from './documents'

export interface Shown {
  /** Of the page: in the window's title and its h1. */
  title: string
  /** In the title block: what this sheet is of. */
  of: string
  brief?: string | undefined
  as_of?: string | undefined
  markets?: readonly string[] | undefined
  revision?: string | undefined
}

const key = 'rigproof.bench'

class Bench {
  workshop = $state.raw<Workshop | null>(null)
  briefs = $state.raw<readonly DocumentHead[]>([])
  builds = $state.raw<readonly DocumentHead[]>([])
  brief = $state('')
  build = $state('')
  /** A brief was worked with before, in this browser; else this is a first visit. */
  begun = $state(false)
  /** What is to be told once on the page of a brief: how it was begun. */
  told = $state.raw<{ brief: string; text: string } | null>(null)
  shown = $state.raw<Shown>({ title: '', of: '' })
  /** Set by the app. */
  go: (path: string, how?: { replace?: boolean; keep_focus?: boolean }) => void = () => undefined

  async load(): Promise<void> {
    const [shop, briefs, builds] = await Promise.all([workshop(), documents('brief'), documents('build')])
    this.workshop = shop
    this.briefs = briefs
    this.builds = builds
    const last = stored()
    if (!this.brief && last.brief && briefs.some(({ id }) => id === last.brief)) {
      this.brief = last.brief
      this.begun = true
    }
    if (!this.build && last.build && builds.some(({ id }) => id === last.build)) this.build = last.build
    // A first visit begins with the first brief there is.
    if (!this.brief) this.brief = briefs.at(0)?.id ?? ''
  }

  async load_documents(): Promise<void> {
    const [briefs, builds] = await Promise.all([documents('brief'), documents('build')])
    this.briefs = briefs
    this.builds = builds
  }

  /** A brief was saved: lists tell its new name, and it stands first. */
  saved_brief(head: Pick<DocumentHead, 'id' | 'name' | 'revision' | 'saved_at'>): void {
    this.briefs = with_saved(this.briefs, head)
  }

  take(what: { brief?: string; build?: string }): void {
    if (what.brief) {
      this.brief = what.brief
      this.begun = true
    }
    if (what.build) this.build = what.build
    try {
      localStorage.setItem(key, JSON.stringify({ brief: this.brief, build: this.build }))
    } catch {
      // Storage may be forbidden: addresses still say all of it.
    }
  }

  name_of(id: string): string {
    return [...this.briefs, ...this.builds].find((each) => each.id === id)?.name ?? ''
  }
}

function stored(): { brief?: string; build?: string } {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(key) ?? '{}')
    if (typeof found !== 'object' || found === null) return {}
    const { brief, build } = found as Record<string, unknown>
    return {
      ...(typeof brief === 'string' ? { brief } : {}),
      ...(typeof build === 'string' ? { build } : {})
    }
  } catch {
    return {}
  }
}

export const bench = new Bench()
