// Following a job: who shares one that another stopped asks again; who stopped it does not.
import { afterEach, describe, expect, it, vi } from 'vitest'
import { start_job } from './job'

/** A server that answers each POST with the next of these states; the rest is not asked for. */
function serve(states: readonly string[]) {
  let asked = 0
  vi.stubGlobal('fetch', (_: string, init: RequestInit) => {
    if (init.method !== 'POST') return Promise.resolve(new Response('{}', { status: 202 }))
    const state = states[Math.min(asked, states.length - 1)]
    asked += 1
    return Promise.resolve(
      new Response(JSON.stringify({ id: `j${asked}`, question: 'sheet', state, ...(state === 'done' ? { answer: asked } : {}) }))
    )
  })
  return () => asked
}

afterEach(() => vi.unstubAllGlobals())

describe('start_job', () => {
  it('asks again when another stopped the job it shares', async () => {
    const asked = serve(['stopped', 'done'])
    const ended = await start_job<number>('sheet', {}).ended
    expect(ended).toMatchObject({ id: 'j2', state: 'done', answer: 2 })
    expect(asked()).toBe(2)
  })

  it('is content with what it stopped itself', async () => {
    const asked = serve(['stopped'])
    const job = start_job('plan', {})
    job.stop()
    expect((await job.ended).state).toBe('stopped')
    expect(asked()).toBe(1)
  })

  it('does not ask for ever', async () => {
    const asked = serve(['stopped'])
    expect((await start_job('plan', {}).ended).state).toBe('stopped')
    expect(asked()).toBe(4)
  })
})
