// A question that takes a while: ask it, follow it by server-sent events, stop it.
import { ask, ApiError, error_of, is_record } from './api'

export interface JobProgress {
  text: string
  done_frac?: number
}
export interface Job<Answer = unknown> {
  id: string
  question: string
  state: 'waiting' | 'running' | 'done' | 'stopped' | 'failed'
  progress?: JobProgress
  answer?: Answer
  error?: unknown
}

export interface RunningJob<Answer> {
  /** Resolves when it has ended, stopped or not; rejects with ApiError when it failed. */
  ended: Promise<Job<Answer>>
  /** Asks the server to stop it; `ended` still says how it went. */
  stop(): void
  /** No longer listens; `ended` rejects with an AbortError. The job goes on. */
  leave(): void
}

export interface JobOptions {
  /** Answers within this time come without events. */
  wait_ms?: number
  on_progress?: (progress: JobProgress) => void
  /** Instead of the browser's own, for tests. */
  event_source?: (url: string) => EventSource
}

/** So often is a job asked for anew that another stopped. */
const most_times = 3
const has_ended = (job: Job) => job.state === 'done' || job.state === 'stopped' || job.state === 'failed'
const path_of = (id: string) => `/jobs/${encodeURIComponent(id)}`

/** A progress as it came; null when it is none. */
export function read_progress(text: string): JobProgress | null {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return null
  }
  if (!is_record(value) || typeof value.text !== 'string') return null
  const out: JobProgress = { text: value.text }
  if (typeof value.done_frac === 'number') out.done_frac = value.done_frac
  return out
}

function settled<Answer>(job: Job<Answer>): Job<Answer> {
  if (job.state !== 'failed') return job
  throw error_of(400, { error: job.error })
}

export function start_job<Answer>(
  question: string,
  inputs: Record<string, unknown>,
  options: JobOptions = {}
): RunningJob<Answer> {
  const { wait_ms = 300, on_progress } = options
  const open = options.event_source ?? ((url: string) => new EventSource(url))
  const given_up = new AbortController()
  let id: string | null = null
  let stop_asked = false

  const send_stop = () => {
    if (id !== null) void ask(path_of(id), { method: 'DELETE' }).catch(() => undefined)
  }

  async function follow_one(): Promise<Job<Answer>> {
    const signal = given_up.signal
    const first = await ask<Job<Answer>>('/jobs', {
      method: 'POST',
      body: { question, inputs, wait_ms },
      signal
    })
    id = first.id
    if (has_ended(first)) return settled(first)
    if (stop_asked) send_stop()
    if (first.progress) on_progress?.(first.progress)
    const last = await events_of<Answer>(first.id, signal, open, on_progress)
    const whole =
      last?.answer !== undefined || last?.state === 'failed'
        ? last
        : await ask<Job<Answer>>(path_of(first.id), { signal })
    return settled(whole)
  }

  // Who asks the same shares one job: when another of them stopped it, it is asked for anew.
  async function follow(): Promise<Job<Answer>> {
    for (let times_left = most_times; ; times_left -= 1) {
      const ended = await follow_one()
      if (ended.state !== 'stopped' || stop_asked || times_left === 0) return ended
    }
  }

  return {
    ended: follow(),
    stop() {
      stop_asked = true
      send_stop()
    },
    leave() {
      given_up.abort()
    }
  }
}

/** The job of the `end` event. The browser itself reconnects; when it gives up, the job is asked for. */
function events_of<Answer>(
  id: string,
  signal: AbortSignal,
  open: (url: string) => EventSource,
  on_progress: JobOptions['on_progress']
): Promise<Job<Answer> | null> {
  return new Promise((resolve, reject) => {
    const source = open(`/api${path_of(id)}/events`)
    const close = () => {
      source.close()
      signal.removeEventListener('abort', on_abort)
    }
    const on_abort = () => {
      close()
      reject(new DOMException('No longer followed.', 'AbortError'))
    }
    signal.addEventListener('abort', on_abort)
    source.addEventListener('progress', (event) => {
      const progress = read_progress(String((event as MessageEvent).data))
      if (progress) on_progress?.(progress)
    })
    source.addEventListener('end', (event) => {
      close()
      try {
        resolve(JSON.parse(String((event as MessageEvent).data)) as Job<Answer>)
      } catch {
        resolve(null)
      }
    })
    source.addEventListener('error', () => {
      if (source.readyState !== 2) return
      close()
      ask<Job<Answer>>(path_of(id), { signal }).then(
        (job) => {
          if (has_ended(job)) resolve(job)
          else reject(new ApiError('unreachable', 'The server no longer tells how the work goes on.'))
        },
        (error: unknown) => reject(error instanceof Error ? error : new Error(String(error)))
      )
    })
  })
}
