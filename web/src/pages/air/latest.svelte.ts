// Answers to a question that changes faster than it can be answered: one is worked on at a time, of
// those that wait only the latest is asked, and the old answer stays until the new one is there.
import { ApiError, is_abort } from '../../lib/api'

/** The signal says that the answer is no longer wanted. */
export type Work<Answer> = (signal: AbortSignal) => Promise<Answer>

export interface LatestOptions {
  /** Asks only when nothing newer came for so long. */
  rest_ms?: number
  /** Gives up what is worked on as soon as something newer is asked. */
  give_up_older?: boolean
}

export class Latest<Answer> {
  answer = $state.raw<Answer | null>(null)
  /** Key of the question that `answer` is of. */
  of = $state('')
  /** Something newer than the answer is asked. */
  waiting = $state(false)
  error = $state.raw<ApiError | null>(null)
  #options: LatestOptions
  #asked = ''
  #next: { key: string; work: Work<Answer> } | null = null
  #now: AbortController | null = null
  #timer: ReturnType<typeof setTimeout> | undefined
  #rested = true
  #left = false

  constructor(options: LatestOptions = {}) {
    this.#options = options
  }

  /** What was asked last is not asked again, unless `again` says so. */
  ask(key: string, work: Work<Answer>, again = false): void {
    if (this.#left || (key === this.#asked && !again)) return
    this.#asked = key
    this.#next = { key, work }
    this.waiting = true
    if (this.#options.give_up_older) this.#now?.abort()
    clearTimeout(this.#timer)
    const rest_ms = this.#options.rest_ms ?? 0
    this.#rested = rest_ms <= 0
    if (this.#rested) void this.#go_on()
    else
      this.#timer = setTimeout(() => {
        this.#rested = true
        void this.#go_on()
      }, rest_ms)
  }

  async #go_on(): Promise<void> {
    if (this.#now) return
    while (this.#next && this.#rested && !this.#left) {
      const { key, work } = this.#next
      this.#next = null
      const now = new AbortController()
      this.#now = now
      try {
        const answer = await work(now.signal)
        if (this.#left || now.signal.aborted) continue
        this.answer = answer
        this.of = key
        this.error = null
      } catch (error) {
        if (this.#left || now.signal.aborted || is_abort(error)) continue
        this.error = error instanceof ApiError ? error : new ApiError('not_understood', String(error))
      } finally {
        this.#now = null
      }
    }
    this.waiting = this.#next !== null && !this.#left
  }

  /** The page goes away: nothing more is asked or told. */
  leave(): void {
    this.#left = true
    this.#next = null
    clearTimeout(this.#timer)
    this.#now?.abort()
  }
}
