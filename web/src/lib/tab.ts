// What this tab keeps in the browser until the server has it, apart from what other tabs keep of the same
// thing: two tabs in which one brief is written have two drafts. What a closed tab left is taken over.

export interface KeptText {
  /** Key it is kept under. */
  at: string
  text: string
}
export interface KeptTexts {
  mine: KeptText | null
  /** Of tabs that are closed. */
  left: readonly KeptText[]
  /** Of tabs that are open now. */
  open: readonly KeptText[]
}
type Locks = Pick<LockManager, 'request' | 'query'>

const name_key = 'rigproof.tab'
const lock_of = (tab: string) => `rigproof.tab.${tab}`
const fresh_name = () => Math.random().toString(36).slice(2, 10)

export class Tab {
  #name = fresh_name()
  #ready: Promise<void> | null = null
  #session: Storage | undefined
  #locks: Locks | undefined

  /** In: what lasts as long as the tab; the browser's locks, by which tabs know of each other. */
  constructor(session: Storage | undefined, locks: Locks | undefined) {
    this.#session = session
    this.#locks = locks
  }

  /** Once, before anything is kept: the tab has its name, also after a reload, and shows that it is open. */
  begin(): Promise<void> {
    this.#ready ??= this.#begin()
    return this.#ready
  }
  async #begin(): Promise<void> {
    const before = this.#stored_name()
    if (before) this.#name = before
    // A tab that was doubled has the name of the other one: it takes a new one.
    if (!(await this.#hold())) {
      this.#name = fresh_name()
      await this.#hold()
    }
    try {
      this.#session?.setItem(name_key, this.#name)
    } catch {
      // Forbidden: after a reload this is another tab, and takes over what it left.
    }
  }
  #stored_name(): string | null {
    try {
      return this.#session?.getItem(name_key) ?? null
    } catch {
      return null
    }
  }
  /** Holds the lock of its name until the tab is closed; false: another tab has it. */
  #hold(): Promise<boolean> {
    const locks = this.#locks
    if (!locks) return Promise.resolve(true)
    return new Promise((resolve) => {
      locks
        .request(lock_of(this.#name), { ifAvailable: true }, (lock) => {
          resolve(lock !== null)
          return lock === null ? undefined : new Promise(() => undefined)
        })
        .catch(() => resolve(true))
    })
  }

  /** Null forgets it. False: it could not be kept (storage forbidden or full). */
  keep(key: string, text: string | null): boolean {
    try {
      if (text === null) localStorage.removeItem(this.#at(key))
      else localStorage.setItem(this.#at(key), text)
      return true
    } catch {
      return text === null
    }
  }
  #at = (key: string) => `${key}@${this.#name}`

  async kept(key: string): Promise<KeptTexts> {
    await this.begin()
    const all = kept_under(key)
    const mine = all.find(({ at }) => at === this.#at(key)) ?? null
    const others = all.filter((each) => each !== mine)
    if (others.length === 0) return { mine, left: [], open: [] }
    const held = new Set(await this.#held())
    const is_open = ({ at }: KeptText) => held.has(lock_of(at.slice(key.length + 1)))
    return { mine, left: others.filter((each) => !is_open(each)), open: others.filter(is_open) }
  }
  async #held(): Promise<string[]> {
    try {
      return (await this.#locks?.query())?.held?.flatMap(({ name }) => (name === undefined ? [] : [name])) ?? []
    } catch {
      return []
    }
  }

  /** This tab's own text; where it has none, what a closed tab left is its own from now on. */
  async own(key: string): Promise<string | null> {
    const { mine, left } = await this.kept(key)
    if (mine) return mine.text
    const [first] = left
    if (!first) return null
    if (this.keep(key, first.text)) localStorage.removeItem(first.at)
    return first.text
  }
}

/** Under the key itself stands what was kept before tabs had names. */
function kept_under(key: string): KeptText[] {
  try {
    return Array.from({ length: localStorage.length }, (_, i) => localStorage.key(i) ?? '')
      .filter((at) => at === key || at.startsWith(`${key}@`))
      .flatMap((at) => {
        const text = localStorage.getItem(at)
        return text === null ? [] : [{ at, text }]
      })
  } catch {
    return []
  }
}

function session_storage(): Storage | undefined {
  try {
    return typeof sessionStorage === 'undefined' ? undefined : sessionStorage
  } catch {
    return undefined
  }
}
/** Not where the page has no secure address: what others keep is then taken for left behind. */
const browser_locks = () => (typeof window === 'undefined' ? undefined : (navigator as { locks?: LockManager }).locks)

export const this_tab = new Tab(session_storage(), browser_locks())
if (typeof window !== 'undefined') void this_tab.begin()
