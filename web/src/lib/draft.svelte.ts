// A document while somebody writes in it: saved by itself a moment after the last change, every save a
// revision; undone and done again step by step; kept in this browser until the server has it.
import { ApiError } from './api'
import { read_document, save_document, type DocumentText } from './documents'
import type { Trouble } from './api'
import { this_tab, type Tab } from './tab'

const wait_ms = 400
const key_of = (id: string) => `rigproof.draft.${id}`

export interface Version {
  name: string
  text: string
}
interface Unsaved extends Version {
  after: number
  /** Sent, and no answer came: the server may have it all the same. */
  unanswered?: Version | null
}
const is_version = (value: unknown): value is Version => {
  const { name, text } = (value ?? {}) as Partial<Version>
  return typeof name === 'string' && typeof text === 'string'
}
const same = (a: Version | null, b: Version) => a !== null && a.text === b.text && a.name === b.name

function read_kept(text: string | null): Unsaved | null {
  try {
    const found: unknown = JSON.parse(text ?? 'null')
    if (typeof found !== 'object' || found === null) return null
    const { after, unanswered } = found as Partial<Unsaved>
    if (typeof after !== 'number' || !is_version(found)) return null
    return { after, name: found.name, text: found.text, unanswered: is_version(unanswered) ? unanswered : null }
  } catch {
    return null
  }
}
/** What can be undone and done again, as this browser keeps it across a reload. */
interface Steps {
  /** Of the text they lead away from: another text has other steps. */
  text: string
  before: Version[]
  undone: Version[]
  oldest: number
}
const steps_key = (id: string) => `rigproof.steps.${id}`
const most_steps = 30

function kept_steps(id: string, text: string): Steps | null {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(steps_key(id)) ?? 'null')
    if (typeof found !== 'object' || found === null) return null
    const { text: of, before, undone, oldest } = found as Partial<Steps>
    return of === text && Array.isArray(before) && before.every(is_version) && Array.isArray(undone) &&
      undone.every(is_version) && typeof oldest === 'number'
      ? { text, before, undone, oldest }
      : null
  } catch {
    return null
  }
}
function keep_steps(id: string, { text, before, undone, oldest }: Steps): void {
  try {
    localStorage.setItem(
      steps_key(id), JSON.stringify({ text, before: before.slice(-most_steps), undone: undone.slice(-most_steps), oldest })
    )
  } catch {
    // No room, or forbidden: undo then goes by the server's revisions alone.
  }
}

export class Draft {
  id = $state('')
  name = $state('')
  text = $state('')
  revision = $state(0)
  problems = $state.raw<readonly Trouble[]>([])
  saved_at = $state('')
  loading = $state(true)
  saving = $state(false)
  unsaved = $state(false)
  error = $state.raw<ApiError | null>(null)
  /** Somebody else saved another text meanwhile. */
  theirs = $state.raw<DocumentText | null>(null)
  undone = $state.raw<readonly Version[]>([])
  before = $state.raw<readonly Version[]>([])
  /** How far back revisions of the server were already taken. */
  #oldest = 1
  #timer: ReturnType<typeof setTimeout> | undefined
  #saving: Promise<void> | null = null
  /** What the server has. */
  #saved: Version = { name: '', text: '' }
  #unanswered: Version | null = null
  /** Another tab of this browser has a text of it that is not saved, so far as was looked. */
  elsewhere = $state(false)
  #tab: Tab
  #seen_elsewhere = ''

  constructor(tab: Tab = this_tab) {
    this.#tab = tab
  }

  async open(id: string): Promise<void> {
    this.id = id
    this.loading = true
    this.error = null
    this.theirs = null
    this.before = []
    this.undone = []
    this.#unanswered = null
    this.elsewhere = false
    this.#seen_elsewhere = ''
    try {
      const [document, own] = await Promise.all([read_document(id), this.#tab.own(key_of(id))])
      if (this.id !== id) return
      this.#take(document)
      this.#oldest = document.revision
      const mine = read_kept(own)
      if (mine && mine.text !== document.text) {
        this.before = [{ name: document.name, text: document.text }]
        this.name = mine.name
        this.text = mine.text
        const own = mine.after + 1 === document.revision && same(mine.unanswered ?? null, document)
        if (own || mine.after === document.revision) this.#later()
        else this.theirs = document
      } else this.#keep_nothing()
      const steps = kept_steps(id, this.text)
      if (steps && !this.theirs) {
        this.before = steps.before
        this.undone = steps.undone
        this.#oldest = Math.min(steps.oldest, document.revision)
      }
    } catch (error) {
      this.error = error instanceof ApiError ? error : new ApiError('not_understood', String(error))
    } finally {
      if (this.id === id) this.loading = false
    }
  }

  #take(document: DocumentText): void {
    this.name = document.name
    this.text = document.text
    this.revision = document.revision
    this.problems = document.problems
    this.saved_at = document.saved_at
    this.#saved = { name: document.name, text: document.text }
    this.unsaved = false
  }

  /** Writes; it can be undone. */
  write(text: string, name = this.name): void {
    if (text === this.text && name === this.name) return
    this.before = [...this.before.slice(-199), { name: this.name, text: this.text }]
    this.undone = []
    this.#put({ name, text })
  }

  #put(version: Version): void {
    this.name = version.name
    this.text = version.text
    this.unsaved = true
    this.#keep()
    keep_steps(this.id, { text: version.text, before: [...this.before], undone: [...this.undone], oldest: this.#oldest })
    this.#later()
  }

  #keep(): void {
    const unsaved: Unsaved = { after: this.revision, name: this.name, text: this.text, unanswered: this.#unanswered }
    // Where storage is forbidden the text is only as safe as the page.
    this.#tab.keep(key_of(this.id), JSON.stringify(unsaved))
  }
  #keep_nothing = () => void this.#tab.keep(key_of(this.id), null)

  /** Called now and then. A text that another tab is just about to save is no news: only one that stays there is. */
  async look_elsewhere(): Promise<void> {
    const { id } = this
    const { open } = await this.#tab.kept(key_of(id))
    if (this.id !== id) return
    const seen = open.map(({ at, text }) => `${at} ${text}`).join('\n')
    this.elsewhere = seen !== '' && seen === this.#seen_elsewhere
    this.#seen_elsewhere = seen
  }

  get can_undo(): boolean {
    return this.before.length > 0 || this.#oldest > 1
  }

  async undo(): Promise<void> {
    const now = { name: this.name, text: this.text }
    let last = this.before.at(-1)
    if (last) this.before = this.before.slice(0, -1)
    // Further back than this page remembers: what the server has.
    while (!last && this.#oldest > 1) {
      this.#oldest -= 1
      try {
        const older = await read_document(this.id, this.#oldest)
        if (older.text !== now.text) last = { name: older.name, text: older.text }
      } catch (error) {
        this.error = error instanceof ApiError ? error : null
        return
      }
    }
    if (!last) return
    this.undone = [...this.undone, now]
    this.#put(last)
  }

  redo(): void {
    const next = this.undone.at(-1)
    if (!next) return
    this.undone = this.undone.slice(0, -1)
    this.before = [...this.before, { name: this.name, text: this.text }]
    this.#put(next)
  }

  #later(): void {
    clearTimeout(this.#timer)
    this.#timer = setTimeout(() => void this.save(), wait_ms)
  }

  /** At once; resolves when the server has the text as it is now, or said no. */
  async save(): Promise<void> {
    clearTimeout(this.#timer)
    while (this.#saving) await this.#saving
    if (this.theirs || (this.text === this.#saved.text && this.name === this.#saved.name)) {
      this.unsaved = this.theirs !== null
      if (!this.theirs) this.#keep_nothing()
      return
    }
    this.#saving = this.#send()
    await this.#saving
    this.#saving = null
    if (this.unsaved && !this.error && !this.theirs) await this.save()
  }

  async #send(): Promise<void> {
    const { id, name, text } = this
    this.saving = true
    try {
      const saved = await save_document(id, name, text, this.revision)
      if (this.id !== id) return
      this.error = null
      this.revision = saved.revision
      this.saved_at = saved.saved_at
      this.problems = saved.problems
      this.#has({ name, text })
    } catch (error) {
      const told = error instanceof ApiError ? error : new ApiError('not_understood', String(error))
      if (told.code === 'conflict') await this.#overtaken(id)
      else this.error = told
      if (told.code === 'unreachable') {
        this.#unanswered = { name, text }
        this.#keep()
      }
    } finally {
      this.saving = false
    }
  }

  /** The server has this as its newest. */
  #has(version: Version): void {
    this.#saved = version
    this.#unanswered = null
    this.unsaved = this.text !== version.text || this.name !== version.name
    if (this.unsaved) this.#keep()
    else this.#keep_nothing()
  }

  /** There is a newer revision: somebody else's, or one of this page's own whose answer was lost. */
  async #overtaken(id: string): Promise<void> {
    const there = await read_document(id).catch(() => null)
    if (this.id !== id) return
    if (there && there.revision === this.revision + 1 && same(this.#unanswered, there)) {
      this.revision = there.revision
      this.saved_at = there.saved_at
      this.error = null
      this.#has({ name: there.name, text: there.text })
    } else if (there) this.theirs = there
    else this.error = new ApiError('unreachable', 'The server does not answer. Is `rigproof serve` still running?')
  }

  /** Of two texts that were written at once: mine goes on top, theirs stays as a revision before it. */
  async keep_mine(): Promise<void> {
    if (!this.theirs) return
    this.revision = this.theirs.revision
    this.#saved = { name: this.theirs.name, text: this.theirs.text }
    this.theirs = null
    await this.save()
  }
  take_theirs(): void {
    if (!this.theirs) return
    this.before = [...this.before, { name: this.name, text: this.text }]
    const theirs = this.theirs
    this.theirs = null
    this.#take(theirs)
    this.#keep_nothing()
  }
}
