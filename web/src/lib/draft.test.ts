// A document written in while the service is there, away, or has changed: what is saved, told, kept.
import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { Draft } from './draft.svelte'

// A server of one document.
let kept = { text: 'one', revision: 4 }
/** What becomes of the next PUT: answered; kept and the answer lost; not even asked. */
let next: 'answered' | 'lost' | 'away' = 'answered'
let storage = new Map<string, string>()
const answer = (status: number, body: unknown) => new Response(JSON.stringify(body), { status })
const document = () => ({
  id: 'b1', kind: 'brief', name: 'One', revision: kept.revision, head_revision: kept.revision, saved_at: '', deleted: false,
  text: kept.text, problems: []
})

beforeEach(() => {
  kept = { text: 'one', revision: 4 }
  next = 'answered'
  storage = new Map()
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => storage.get(key) ?? null,
    setItem: (key: string, value: string) => void storage.set(key, value),
    removeItem: (key: string) => void storage.delete(key)
  })
  vi.stubGlobal('fetch', (_: string, { method = 'GET', body }: RequestInit = {}) => {
    if (method !== 'PUT') return Promise.resolve(answer(200, document()))
    const how = next
    next = 'answered'
    if (how === 'away') return Promise.reject(new TypeError('no service'))
    const { text, after } = JSON.parse(String(body)) as { text: string; after: number }
    if (after !== kept.revision) return Promise.resolve(answer(409, { error: { code: 'conflict', message: 'newer' } }))
    kept = { text, revision: kept.revision + 1 }
    return how === 'lost' ? Promise.reject(new TypeError('broken off')) : Promise.resolve(answer(200, document()))
  })
})
afterEach(() => vi.unstubAllGlobals())

async function opened() {
  const draft = new Draft()
  await draft.open('b1')
  return draft
}
async function saved(draft: Draft, text: string) {
  draft.write(text)
  await draft.save()
}

it('saves, and says so', async () => {
  const draft = await opened()
  await saved(draft, 'two')
  expect(kept).toEqual({ text: 'two', revision: 5 })
  expect([draft.unsaved, draft.error, draft.theirs]).toEqual([false, null, null])
})

it('keeps what could not be sent, also for the next visit', async () => {
  const draft = await opened()
  next = 'away'
  await saved(draft, 'two')
  expect(draft.error?.code).toBe('unreachable')
  const later = await opened()
  expect(later.text).toBe('two')
  await later.save()
  expect(kept).toEqual({ text: 'two', revision: 5 })
})

it('takes no revision of its own, whose answer was lost, for that of somebody else', async () => {
  const draft = await opened()
  next = 'lost'
  await saved(draft, 'two')
  expect(draft.error?.code).toBe('unreachable')
  await saved(draft, 'three')
  expect(draft.theirs).toBeNull()
  expect(draft.error).toBeNull()
  expect(kept).toEqual({ text: 'three', revision: 6 })
})

it('nor does the next visit', async () => {
  const draft = await opened()
  next = 'lost'
  await saved(draft, 'two')
  draft.write('three')
  const later = await opened()
  expect(later.theirs).toBeNull()
  expect(later.text).toBe('three')
  await later.save()
  expect(kept).toEqual({ text: 'three', revision: 6 })
})

it('tells what somebody else wrote meanwhile, and keeps both', async () => {
  const draft = await opened()
  kept = { text: 'theirs', revision: 5 }
  await saved(draft, 'mine')
  expect(draft.theirs?.text).toBe('theirs')
  expect(kept.text).toBe('theirs')
  await draft.keep_mine()
  expect(kept).toEqual({ text: 'mine', revision: 6 })
})
