// A document written in while the service is there, away, or has changed: what is saved, told, kept.
import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { Draft } from './draft.svelte'
import { Tab } from './tab'

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

const storage_of = (map: Map<string, string>) => ({
  get length() {
    return map.size
  },
  key: (i: number) => [...map.keys()][i] ?? null,
  getItem: (key: string) => map.get(key) ?? null,
  setItem: (key: string, value: string) => void map.set(key, value),
  removeItem: (key: string) => void map.delete(key)
})

// Locks of one browser, as far as tabs use them: held until the tab is closed.
function browser() {
  const held = new Map<string, object>()
  const tab_of = (session: Map<string, string>) => {
    const mark = {}
    const locks = {
      request: async (name: string, _: object, work: (lock: object | null) => unknown) => {
        if (held.has(name)) return void (await work(null))
        held.set(name, mark)
        await work({ name })
      },
      query: () => Promise.resolve({ held: [...held.keys()].map((name) => ({ name })), pending: [] })
    }
    const close = () => {
      for (const [name, by] of held) if (by === mark) held.delete(name)
    }
    const tab = new Tab(storage_of(session) as unknown as Storage, locks as unknown as LockManager)
    return { tab, close, reloaded: () => (close(), tab_of(session)), doubled: () => tab_of(new Map(session)) }
  }
  return { open: () => tab_of(new Map()) }
}

beforeEach(() => {
  kept = { text: 'one', revision: 4 }
  next = 'answered'
  storage = new Map()
  vi.stubGlobal('localStorage', storage_of(storage))
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

async function opened(tab?: Tab) {
  const draft = new Draft(tab)
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

it('keeps the texts of two tabs apart, each over its own reload', async () => {
  const { open } = browser()
  const [a, b] = [open(), open()]
  const first = await opened(a.tab)
  const second = await opened(b.tab)
  kept = { text: 'theirs', revision: 5 }
  await saved(first, 'of the first')
  expect(first.theirs?.text).toBe('theirs')
  const b_again = b.reloaded()
  const second_again = await opened(b_again.tab)
  expect([second_again.text, second_again.theirs]).toEqual(['theirs', null])
  await saved(second, 'of the second')
  expect((await opened(a.reloaded().tab)).text).toBe('of the first')
})

it('says that another tab has a text that is not saved, once it stays so', async () => {
  const { open } = browser()
  const [a, b] = [open(), open()]
  const first = await opened(a.tab)
  const second = await opened(b.tab)
  next = 'away'
  await saved(first, 'two')
  await second.look_elsewhere()
  expect(second.elsewhere).toBe(false)
  await second.look_elsewhere()
  expect([second.elsewhere, second.text]).toEqual([true, 'one'])
  await first.save()
  await second.look_elsewhere()
  expect(second.elsewhere).toBe(false)
})

it('takes over what a closed tab left, and a doubled tab begins without', async () => {
  const { open } = browser()
  const a = open()
  const first = await opened(a.tab)
  next = 'away'
  await saved(first, 'two')
  expect((await opened(a.doubled().tab)).text).toBe('one')
  a.close()
  expect((await opened(open().tab)).text).toBe('two')
  // Taken over once only.
  expect([...storage.keys()].filter((key) => key.startsWith('rigproof.draft'))).toHaveLength(1)
})

it('takes over what was kept before tabs had names', async () => {
  storage.set('rigproof.draft.b1', JSON.stringify({ after: 4, name: 'One', text: 'older' }))
  expect((await opened(browser().open().tab)).text).toBe('older')
  expect(storage.has('rigproof.draft.b1')).toBe(false)
})
