// A kept build while a page changes it: each change is saved at once as a revision, says what was done
// and can be taken back.
import { ApiError } from '../../lib/api'
import { bench } from '../../lib/bench.svelte'
import { delete_document, new_document, save_document } from '../../lib/documents'
import { Draft } from '../../lib/draft.svelte'
import { set_key, text_literal } from '../../lib/toml_edit'

const named = (text: string, name: string) =>
  set_key(text, { section: '', key: 'name' }, text_literal(name))?.text ?? null

export class KeptBuild {
  draft = new Draft()
  /** What was done last, in a sentence; null: nothing that could be taken back here. */
  done = $state<string | null>(null)
  /** What was taken back last. */
  undone = $state<string | null>(null)
  /** Why nothing was done. */
  trouble = $state('')
  error = $state.raw<ApiError | null>(null)
  /** Removed builds are still there to be looked at and brought back. */
  removed = $derived(
    bench.workshop !== null && !this.draft.loading && this.draft.text !== '' &&
      !bench.builds.some(({ id }) => id === this.draft.id)
  )

  async open(id: string): Promise<void> {
    this.#forget()
    await this.draft.open(id)
  }

  #forget(): void {
    this.done = null
    this.undone = null
    this.trouble = ''
    this.error = null
  }

  /** The revision before, where the change was made and kept. */
  async change(says: string, make: (text: string) => string | null, name = this.draft.name): Promise<number | null> {
    const { draft } = this
    this.#forget()
    await draft.save()
    if (draft.theirs || draft.error) return null
    const text = make(draft.text)
    if (text === null) this.trouble = 'Nothing was changed: the file of this build is no TOML as it stands.'
    else if (text === draft.text && name === draft.name) this.trouble = 'Nothing was changed: the build is like that already.'
    if (text === null || this.trouble) return null
    const before = draft.revision
    draft.write(text, name)
    await draft.save()
    if (draft.theirs || draft.error) return null
    this.done = says
    this.#listed()
    return before
  }

  async undo(): Promise<void> {
    if (this.removed) return this.bring_back()
    const said = this.done
    this.#forget()
    await this.draft.undo()
    await this.draft.save()
    this.undone = said
    this.#listed()
  }
  async redo(): Promise<void> {
    const said = this.undone
    this.#forget()
    this.draft.redo()
    await this.draft.save()
    this.done = said
    this.#listed()
  }
  /** Names and revisions in the lists of builds are those of before; not waited for. */
  #listed(): void {
    void bench.load_documents().catch(() => undefined)
  }

  async rename(name: string): Promise<void> {
    await this.change(`Called it ${name} instead of ${this.draft.name}.`, (text) => named(text, name), name)
  }

  /** The id of the copy. */
  async copy(name: string): Promise<string | null> {
    return this.#try(async () => {
      const text = named(this.draft.text, name) ?? this.draft.text
      const made = await new_document('build', name, text)
      await bench.load_documents()
      return made.id
    })
  }
  async remove(): Promise<void> {
    await this.#try(async () => {
      await this.draft.save()
      await delete_document(this.draft.id, this.draft.revision)
      await bench.load_documents()
      await this.draft.open(this.draft.id)
      this.done = `Removed ${this.draft.name}.`
      return ''
    })
  }
  async bring_back(): Promise<void> {
    await this.#try(async () => {
      const { id, name, text, revision } = this.draft
      await save_document(id, name, text, revision)
      await bench.load_documents()
      await this.draft.open(id)
      return ''
    })
  }

  async #try(work: () => Promise<string>): Promise<string | null> {
    this.#forget()
    try {
      return await work()
    } catch (error) {
      const told = error instanceof ApiError ? error : new ApiError('not_understood', String(error))
      if (told.code === 'conflict') await this.draft.open(this.draft.id)
      this.error =
        told.code === 'conflict'
          ? new ApiError('conflict', 'This build was changed elsewhere meanwhile. It is shown as it is now; nothing else was done.')
          : told
      return null
    }
  }
}
