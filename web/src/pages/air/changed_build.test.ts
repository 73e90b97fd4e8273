// A build changed from a page: written after what was read, taken back, told when it was overtaken.
import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { ChangedBuild, swapped_words } from './changed_build.svelte'

// A server of one document.
let kept = { text: 'name = "one"\n', revision: 4 }
let requests: string[] = []
const answer = (status: number, body: unknown) => new Response(JSON.stringify(body), { status })
const document = () => ({
  id: 'b1', kind: 'build', name: 'One', revision: kept.revision, head_revision: kept.revision, saved_at: '', deleted: false,
  text: kept.text, problems: []
})

beforeEach(() => {
  kept = { text: 'name = "one"\n', revision: 4 }
  requests = []
  vi.stubGlobal('fetch', (url: string, { method = 'GET', body }: RequestInit = {}) => {
    requests.push(method)
    if (url !== '/api/documents/b1') return Promise.resolve(answer(404, { error: { code: 'not_found', message: 'none' } }))
    if (method === 'PUT') {
      const { text, after } = JSON.parse(String(body)) as { text: string; after: number }
      if (after !== kept.revision) return Promise.resolve(answer(409, { error: { code: 'conflict', message: 'newer' } }))
      kept = { text, revision: kept.revision + 1 }
    }
    return Promise.resolve(answer(200, document()))
  })
})
afterEach(() => vi.unstubAllGlobals())

async function loaded() {
  const changed = new ChangedBuild()
  await changed.load('b1')
  return changed
}
const more = (text: string) => `${text}# more\n`

it('writes, undoes and does again, each as a revision', async () => {
  const changed = await loaded()
  expect(await changed.change('Wrote more.', more)).toBe(true)
  expect(kept).toEqual({ text: 'name = "one"\n# more\n', revision: 5 })
  expect(changed.done).toBe('Wrote more.')
  await changed.undo()
  expect(kept).toEqual({ text: 'name = "one"\n', revision: 6 })
  expect([changed.done, changed.undone?.said]).toEqual([null, 'Wrote more.'])
  await changed.redo()
  expect(kept).toEqual({ text: 'name = "one"\n# more\n', revision: 7 })
  expect([changed.done, changed.undone]).toEqual(['Wrote more.', null])
})

it('writes nothing over what somebody else wrote, and shows it', async () => {
  const changed = await loaded()
  kept = { text: 'name = "theirs"\n', revision: 5 }
  expect(await changed.change('Wrote more.', more)).toBe(false)
  expect(kept.text).toBe('name = "theirs"\n')
  expect(changed.document?.text).toBe('name = "theirs"\n')
  expect(changed.error?.code).toBe('conflict')
  expect(changed.done).toBeNull()
})

it('asks nothing of the server for a text that cannot be changed', async () => {
  const changed = await loaded()
  requests = []
  expect(await changed.change('Nothing.', () => null)).toBe(false)
  expect(requests).toEqual([])
  expect(changed.error?.code).toBe('bad_input')
})

it('says that a build is not there', async () => {
  const changed = new ChangedBuild()
  await changed.load('b2')
  expect(changed.document).toBeNull()
  expect(changed.error?.code).toBe('not_found')
})

it('tells a swap', () => {
  expect(swapped_words({ kind: 'fan', in: 'a', out: 'b', count: 1 })).toBe('Took a instead of b.')
  expect(swapped_words({ kind: 'fan', in: 'a', out: '', count: 3 })).toBe('Added 3 of a.')
  expect(swapped_words({ kind: 'fan', in: '', out: 'b', count: 1 })).toBe('Left out b.')
})
