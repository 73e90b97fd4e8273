// The router's matching and the readers of what the server sends.
import { afterEach, expect, it, vi } from 'vitest'
import { address, ApiError, ask, error_of } from './api'
import { read_progress, start_job } from './job'
import { find_route, match_path, path_to } from './route'

it('matches paths with parameters', () => {
  expect(match_path('/', '/')).toEqual({})
  expect(match_path('/claims/:build', '/claims/a%20b')).toEqual({ build: 'a b' })
  expect(match_path('/claims/:build', '/claims/a/')).toEqual({ build: 'a' })
  expect(match_path('/claims/:build', '/claims')).toBeNull()
  expect(match_path('/claims/:build', '/claims/')).toBeNull()
  expect(match_path('/claims', '/plan')).toBeNull()
  expect(match_path('/claims/:build', '/claims/%E0%A4%A')).toBeNull()
})

it('takes the first route that fits and keeps the query', () => {
  const routes = [
    { path: '/claims/all', page: 'all' },
    { path: '/claims/:build', page: 'one' }
  ]
  const found = find_route(routes, new URL('http://x/claims/b7?at=fit.x#top'))
  expect(found?.page).toBe('one')
  expect(found?.parameters).toEqual({ build: 'b7' })
  expect(found?.place.query.get('at')).toBe('fit.x')
  expect(find_route(routes, new URL('http://x/claims/all'))?.page).toBe('all')
  expect(find_route(routes, new URL('http://x/none'))).toBeNull()
})

it('writes what it reads', () => {
  const path = path_to('/claims/:build', { build: 'a b/c' }, { at: 'fit.x', not: undefined })
  expect(path).toBe('/claims/a%20b%2Fc?at=fit.x')
  expect(match_path('/claims/:build', path.split('?')[0] ?? '')).toEqual({ build: 'a b/c' })
})

it('makes addresses and leaves out what is not asked', () => {
  expect(address('/documents', { kind: 'brief', revision: undefined })).toBe('/api/documents?kind=brief')
  expect(address('/workshop')).toBe('/api/workshop')
})

it('reads errors of every shape', () => {
  const body = {
    error: { code: 'bad_input', message: 'Not a brief.', problems: [{ place: 'brief:12:3', line: 12, column: 3, what: 'no amount', expected: 'digits', text: 'x' }] }
  }
  expect(error_of(400, body)).toMatchObject({ code: 'bad_input', message: 'Not a brief.', status: 400 })
  expect(error_of(400, body).problems).toEqual([
    { place: 'brief:12:3', line: 12, column: 3, text: 'no amount; expected digits; got "x"' }
  ])
  expect(error_of(409, '<html>').code).toBe('conflict')
  expect(error_of(502, null)).toMatchObject({ code: 'not_understood', problems: [] })
})

it('reads progress and nothing else', () => {
  expect(read_progress('{"text":"12 of 40","done_frac":0.3}')).toEqual({ text: '12 of 40', done_frac: 0.3 })
  expect(read_progress('{"text":"looking"}')).toEqual({ text: 'looking' })
  expect(read_progress('{"done_frac":1}')).toBeNull()
  expect(read_progress('not json')).toBeNull()
})

afterEach(() => vi.unstubAllGlobals())

function answers(...bodies: Array<[status: number, body: unknown]>) {
  const asked: Array<[string, RequestInit | undefined]> = []
  vi.stubGlobal('fetch', (url: string, init?: RequestInit) => {
    asked.push([url, init])
    const [status, body] = bodies.shift() ?? [500, null]
    return Promise.resolve(new Response(JSON.stringify(body), { status }))
  })
  return asked
}

it('throws what the server says, and says when it is not there', async () => {
  answers([404, { error: { code: 'not_found', message: 'No such document.' } }])
  await expect(ask('/documents/x')).rejects.toMatchObject({ code: 'not_found', message: 'No such document.' })
  vi.stubGlobal('fetch', () => Promise.reject(new TypeError('failed')))
  await expect(ask('/workshop')).rejects.toMatchObject({ code: 'unreachable', status: 0 })
})

/** Sends its events when told to, as a server would. */
class Line extends EventTarget {
  readyState = 1
  close() {
    this.readyState = 2
  }
  say(kind: string, data: unknown) {
    this.dispatchEvent(new MessageEvent(kind, { data: JSON.stringify(data) }))
  }
}
const running = { id: 'j1', question: 'plan', state: 'running', progress: null }

it('gives an answer that came at once without events', async () => {
  answers([200, { ...running, state: 'done', exit: 0, answer: { schema: 'x' } }])
  const open = vi.fn()
  const job = await start_job('plan', {}, { event_source: open }).ended
  expect(job.answer).toEqual({ schema: 'x' })
  expect(open).not.toHaveBeenCalled()
})

it('follows a job to its end and fetches an answer too long for an event', async () => {
  const asked = answers([202, running], [200, { ...running, state: 'done', answer: { long: true } }])
  const line = new Line()
  const heard: string[] = []
  const job = start_job('plan', { brief: 'b' }, {
    on_progress: ({ text }) => heard.push(text),
    event_source: () => line as unknown as EventSource
  })
  await vi.waitFor(() => expect(asked).toHaveLength(1))
  await new Promise((done) => setTimeout(done, 5))
  line.say('progress', { text: 'half' })
  line.say('end', { ...running, state: 'done' })
  expect((await job.ended).answer).toEqual({ long: true })
  expect(heard).toEqual(['half'])
  expect(asked[1]?.[0]).toBe('/api/jobs/j1')
  expect(line.readyState).toBe(2)
})

it('asks the server to stop, and fails with the reason of a job that failed', async () => {
  const asked = answers([202, running], [200, running])
  const line = new Line()
  const job = start_job('plan', {}, { event_source: () => line as unknown as EventSource })
  await new Promise((done) => setTimeout(done, 5))
  job.stop()
  expect(asked[1]?.[1]?.method).toBe('DELETE')
  line.say('end', { ...running, state: 'failed', exit: 2, error: { code: 'bad_input', message: 'No budget.' } })
  await expect(job.ended).rejects.toBeInstanceOf(ApiError)
  await expect(job.ended).rejects.toMatchObject({ code: 'bad_input', message: 'No budget.' })
})
