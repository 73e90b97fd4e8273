// A build of the workshop, changed from a page: every change is a revision that can be taken back.
import { ApiError, is_abort } from '../../lib/api'
import { read_document, save_document, type DocumentText } from '../../lib/documents'
import type { Swap } from '../../lib/json/common'

/** `Took a instead of b.` */
export function swapped_words({ in: into, out, count }: Swap): string {
  const what = count > 1 ? `${count} of ${into}` : into
  if (into && out) return `Took ${what} instead of ${out}.`
  return into ? `Added ${what}.` : `Left out ${out}.`
}

interface Step {
  said: string
  text: string
}

export class ChangedBuild {
  document = $state.raw<DocumentText | null>(null)
  error = $state.raw<ApiError | null>(null)
  /** What was done last and can be undone; null: nothing. */
  done = $state<string | null>(null)
  /** What was undone last and can be done again. */
  undone = $state.raw<Step | null>(null)
  saving = $state(false)
  #before: Step | null = null
  #reading: AbortController | null = null

  async load(id: string): Promise<void> {
    this.#reading?.abort()
    const reading = new AbortController()
    this.#reading = reading
    this.close()
    this.error = null
    if (this.document?.id !== id) this.document = null
    try {
      const document = await read_document(id, undefined, reading.signal)
      if (this.#reading === reading) this.document = document
    } catch (error) {
      if (!is_abort(error) && this.#reading === reading) this.error = told(error)
    }
  }

  /** `make` gives null for a text it cannot change. True when it was written. */
  async change(said: string, make: (text: string) => string | null): Promise<boolean> {
    const before = this.document?.text ?? ''
    const text = make(before)
    if (text === null) {
      this.error = new ApiError('bad_input', 'The build is no valid TOML as it stands: nothing was changed.')
      return false
    }
    if (!(await this.#save(text))) return false
    this.#before = { said, text: before }
    this.done = said
    this.undone = null
    return true
  }

  async undo(): Promise<void> {
    const before = this.#before
    const now = this.document?.text ?? ''
    if (!before || !(await this.#save(before.text))) return
    this.undone = { said: before.said, text: now }
    this.#before = null
    this.done = null
  }

  async redo(): Promise<void> {
    const undone = this.undone
    if (undone) await this.change(undone.said, () => undone.text)
  }

  close(): void {
    this.done = null
    this.undone = null
    this.#before = null
  }

  leave(): void {
    this.#reading?.abort()
    this.#reading = null
  }

  async #save(text: string): Promise<boolean> {
    const document = this.document
    if (!document || this.saving) return false
    this.saving = true
    this.error = null
    try {
      this.document = await save_document(document.id, document.name, text, document.head_revision)
      return true
    } catch (error) {
      if (told(error).code === 'conflict') {
        await this.load(document.id)
        this.error = new ApiError(
          'conflict', 'The build was changed elsewhere meanwhile: nothing was written. It is shown as it is now.'
        )
      } else this.error = told(error)
      return false
    } finally {
      this.saving = false
    }
  }
}

const told = (error: unknown) =>
  error instanceof ApiError ? error : new ApiError('not_understood', String(error))
