// A kept build against a small server of documents in memory, which keeps revisions as the real one
// does: a save after anything but the newest is a conflict, removing is a revision of its own.
import { beforeEach, expect, it, vi } from 'vitest'
import { bench } from '../../lib/bench.svelte'
import { with_part } from '../../lib/build_text'
import { KeptBuild } from './kept_build.svelte'

interface Revision {
  name: string
  text: string
  deleted: boolean
}
let kept: Map<string, Revision[]>

function answer(method: string, url: URL, body: { name: string; text: string; after: number }): [number, unknown] {
  const id = url.pathname.split('/')[3] ?? ''
  const told = (key: string, revision?: number) => {
    const all = kept.get(key) ?? []
    const at = revision ?? all.length
    return {
      id: key, kind: 'build', ...all[at - 1], revision: at, head_revision: all.length, saved_at: '2026-10-01T10:00:00Z', problems: []
    }
  }
  if (url.pathname === '/api/documents' && method === 'GET') {
    const there = url.searchParams.get('kind') === 'build' ? [...kept.keys()].filter((key) => !kept.get(key)?.at(-1)?.deleted) : []
    return [200, { documents: there.map((key) => told(key)) }]
  }
  if (method === 'POST') {
    const key = `made-${kept.size}`
    kept.set(key, [{ name: body.name, text: body.text, deleted: false }])
    return [200, told(key)]
  }
  const all = kept.get(id)
  if (!all) return [404, { error: { code: 'not_found', message: 'none' } }]
  if (method === 'GET') return [200, told(id, Number(url.searchParams.get('revision') ?? all.length))]
  const after = method === 'DELETE' ? Number(url.searchParams.get('after')) : body.after
  if (after !== all.length) return [409, { error: { code: 'conflict', message: 'not the newest' } }]
  const last = all.at(-1) ?? { name: '', text: '', deleted: false }
  all.push(method === 'DELETE' ? { ...last, deleted: true } : { name: body.name, text: body.text, deleted: false })
  return [200, told(id)]
}

const text = 'name = "One"\nfan = "loud"\n'
const quiet = (old: string) => with_part(old, 'fan', 'loud', 'quiet')
const texts = (id = 'a') => kept.get(id)?.map((revision) => revision.text)

beforeEach(async () => {
  kept = new Map([['a', [{ name: 'One', text, deleted: false }]]])
  vi.stubGlobal('fetch', (path: string, init: RequestInit = {}) => {
    const body = JSON.parse(String(init.body ?? '{}')) as { name: string; text: string; after: number }
    const [status, json] = answer(init.method ?? 'GET', new URL(path, 'http://localhost'), body)
    return Promise.resolve(new Response(JSON.stringify(json), { status }))
  })
  bench.workshop = { version: '', folder: '', revision: '', trouble: '', skipped: [], parts: 0, tables: [], questions: [] }
  await bench.load_documents()
})

it('keeps a change as the next revision, takes it back and does it again on top', async () => {
  const build = new KeptBuild()
  await build.open('a')
  expect(await build.change('Took the quiet one.', quiet)).toBe(1)
  expect(build.done).toBe('Took the quiet one.')
  expect(texts()).toEqual([text, text.replace('loud', 'quiet')])
  await build.undo()
  expect(build.done).toBeNull()
  expect(build.undone).toBe('Took the quiet one.')
  await build.redo()
  expect(texts()).toEqual([text, text.replace('loud', 'quiet'), text, text.replace('loud', 'quiet')])
})

it('says so when nothing is changed, and keeps nothing', async () => {
  const build = new KeptBuild()
  await build.open('a')
  expect(await build.change('x', (old) => old)).toBeNull()
  expect(build.trouble).toBe('Nothing was changed: the build is like that already.')
  expect(await build.change('x', () => null)).toBeNull()
  expect(build.trouble).toBe('Nothing was changed: the file of this build is no TOML as it stands.')
  expect(texts()).toEqual([text])
})

it('loses nothing when somebody else saved meanwhile', async () => {
  const build = new KeptBuild()
  await build.open('a')
  kept.get('a')?.push({ name: 'One', text: 'name = "One"\n', deleted: false })
  expect(await build.change('Took the quiet one.', quiet)).toBeNull()
  expect(build.done).toBeNull()
  expect(build.draft.theirs?.revision).toBe(2)
  expect(texts()).toEqual([text, 'name = "One"\n'])
})

it('renames in the file and in the list', async () => {
  const build = new KeptBuild()
  await build.open('a')
  await build.rename('Two "quiet"')
  expect(kept.get('a')?.at(-1)).toEqual({ name: 'Two "quiet"', text: text.replace('"One"', '"Two \\"quiet\\""'), deleted: false })
})

it('keeps another of it under its own name', async () => {
  const build = new KeptBuild()
  await build.open('a')
  const made = await build.copy('Another')
  expect(made).toBe('made-1')
  expect(texts('made-1')).toEqual([text.replace('One', 'Another')])
  expect(bench.name_of('made-1')).toBe('Another')
})

it('removes as a revision, and undo brings it back', async () => {
  const build = new KeptBuild()
  await build.open('a')
  await build.remove()
  expect(build.removed).toBe(true)
  expect(build.done).toBe('Removed One.')
  await build.undo()
  expect(build.removed).toBe(false)
  expect(kept.get('a')?.map(({ deleted }) => deleted)).toEqual([false, true, false])
  expect(texts()?.at(-1)).toBe(text)
})

it('tells what went wrong when the server says no', async () => {
  const build = new KeptBuild()
  await build.open('a')
  kept.get('a')?.push({ name: 'One', text, deleted: false })
  await build.remove()
  expect(build.error?.code).toBe('conflict')
  expect(build.removed).toBe(false)
  // What it is now was read again, so that it can be said once more.
  await build.remove()
  expect(build.removed).toBe(true)
})
