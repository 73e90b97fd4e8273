// One way to ask the server: JSON in and out, every failure an ApiError with a code.

export type ErrorCode =
  | 'bad_input'
  | 'out_of_range'
  | 'not_found'
  | 'conflict'
  | 'stopped'
  | 'io'
  | 'forbidden'
  | 'too_large'
  /** No answer came: the server is not there, or the way to it is broken. */
  | 'unreachable'
  /** An answer came that this page cannot read. */
  | 'not_understood'

export interface Trouble {
  /** `brief:12:3` */
  place: string
  line?: number
  column?: number
  text: string
}

export class ApiError extends Error {
  readonly code: ErrorCode
  readonly problems: readonly Trouble[]
  /** HTTP status; 0 where no answer came. */
  readonly status: number

  constructor(code: ErrorCode, message: string, status = 0, problems: readonly Trouble[] = []) {
    super(message)
    this.name = 'ApiError'
    this.code = code
    this.status = status
    this.problems = problems
  }
}

const known: readonly string[] = [
  'bad_input', 'out_of_range', 'not_found', 'conflict', 'stopped', 'io', 'forbidden', 'too_large'
]
const by_status: Readonly<Record<number, ErrorCode>> = {
  400: 'bad_input', 401: 'forbidden', 403: 'forbidden', 404: 'not_found', 409: 'conflict', 413: 'too_large', 416: 'out_of_range'
}

export function is_record(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** `what; expected this; got "that"`, as the command line says it. */
function trouble_words(value: Record<string, unknown>): string {
  const { what, expected, text } = value
  const pieces = [String(what ?? '')]
  if (typeof expected === 'string' && expected !== '') pieces.push(`expected ${expected}`)
  if (typeof text === 'string' && text !== '') pieces.push(`got "${text}"`)
  return pieces.filter(Boolean).join('; ')
}

export function trouble_of(value: unknown): Trouble {
  if (!is_record(value)) return { place: '', text: String(value) }
  const out: Trouble = { place: String(value.place ?? ''), text: trouble_words(value) }
  if (typeof value.line === 'number') out.line = value.line
  if (typeof value.column === 'number') out.column = value.column
  return out
}

/** The error that a body of a 4xx or 5xx answer states. */
export function error_of(status: number, body: unknown): ApiError {
  const error = is_record(body) && is_record(body.error) ? body.error : {}
  const code = known.includes(String(error.code))
    ? (error.code as ErrorCode)
    : (by_status[status] ?? 'not_understood')
  const message =
    typeof error.message === 'string' && error.message !== ''
      ? error.message
      : `The server answered with status ${status} and no reason.`
  const problems = Array.isArray(error.problems) ? error.problems.map(trouble_of) : []
  return new ApiError(code, message, status, problems)
}

/** Was the question given up by the page itself (navigation, a newer question)? */
export function is_abort(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'AbortError'
}

export interface AskOptions {
  method?: 'GET' | 'POST' | 'PUT' | 'DELETE'
  body?: unknown
  query?: Record<string, string | number | undefined>
  signal?: AbortSignal | undefined
}

export function address(path: string, query: AskOptions['query'] = {}): string {
  const pairs = Object.entries(query).filter(([, value]) => value !== undefined)
  const text = new URLSearchParams(pairs.map(([key, value]) => [key, String(value)])).toString()
  return `/api${path}${text ? `?${text}` : ''}`
}

/** Throws ApiError; an abort throws the DOMException of fetch (see is_abort). */
export async function ask<T>(path: string, options: AskOptions = {}): Promise<T> {
  const { method = 'GET', body, query, signal } = options
  const init: RequestInit = { method, headers: { accept: 'application/json' } }
  if (signal) init.signal = signal
  if (body !== undefined) {
    init.body = JSON.stringify(body)
    init.headers = { accept: 'application/json', 'content-type': 'application/json' }
  }
  let response: Response
  let text: string
  try {
    response = await fetch(address(path, query), init)
    text = await response.text() // may break off, as the asking may
  } catch (error) {
    if (is_abort(error)) throw error
    throw new ApiError('unreachable', 'The server does not answer. Is `rigproof serve` still running?')
  }
  let answer: unknown = null
  try {
    answer = text === '' ? null : JSON.parse(text)
  } catch {
    if (response.ok)
      throw new ApiError('not_understood', 'The server sent something that is no JSON.', response.status)
  }
  if (!response.ok) throw error_of(response.status, answer)
  return answer as T
}
