// A question as a page holds it: the newest answer, how the work goes on, what went wrong. Asking
// again leaves the older question behind; its answer is shown until the new one is there.
import { untrack } from 'svelte'
import { ApiError, is_abort } from './api'
import { start_job, type RunningJob } from './job'

export class Asked<Answer> {
  answer = $state.raw<Answer | null>(null)
  /** Of the question that `answer` is of. */
  of = $state('')
  /** Of the job that gave `answer`: its files stand under it. */
  job_id = $state('')
  running = $state(false)
  stopping = $state(false)
  /** Ended before it was done; `answer` is what was found. */
  stopped = $state(false)
  progress = $state('')
  error = $state.raw<ApiError | null>(null)
  #job: RunningJob<Answer> | null = null
  #question: string
  #asked = ''

  constructor(question: string) {
    this.#question = question
  }

  /**
   * The same question while it runs or was answered is not asked again. In: `stamp` changes with what
   * the inputs only name (a document's revision); `again` asks whatever was asked before.
   */
  ask(inputs: Record<string, unknown>, stamp: string | number = '', again = false): void {
    const key = `${stamp} ${JSON.stringify(inputs)}`
    // An effect that asks must not be run again by how the question goes on.
    if (!again && key === this.#asked && untrack(() => this.running || this.error === null)) return
    this.#job?.leave()
    this.#asked = key
    this.running = true
    this.stopping = false
    this.error = null
    this.progress = ''
    const job = start_job<Answer>(this.#question, inputs, {
      on_progress: ({ text }) => {
        if (this.#job === job) this.progress = text
      }
    })
    this.#job = job
    job.ended.then(
      (ended) => {
        if (this.#job !== job) return
        this.running = false
        this.stopped = ended.state === 'stopped'
        if (ended.answer !== undefined) this.answer = ended.answer
        this.of = key
        this.job_id = ended.id
      },
      (error: unknown) => {
        if (this.#job !== job || is_abort(error)) return
        this.running = false
        this.error = error instanceof ApiError ? error : new ApiError('not_understood', String(error))
      }
    )
  }

  stop(): void {
    this.stopping = true
    this.#job?.stop()
  }

  /** No longer followed: the page goes away. */
  leave(): void {
    this.#job?.leave()
    this.#job = null
    this.running = false
  }

  forget(): void {
    this.leave()
    this.answer = null
    this.error = null
    this.#asked = ''
  }
}
