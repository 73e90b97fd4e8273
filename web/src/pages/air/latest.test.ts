// One at a time, the latest wins, the old answer stays.
import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { Latest } from './latest.svelte'

interface Asked {
  key: string
  signal: AbortSignal
  answer: (text: string) => void
  fail: (error: Error) => void
}
let asked: Asked[] = []
const work = (key: string) => (signal: AbortSignal) =>
  new Promise<string>((answer, fail) => {
    asked.push({ key, signal, answer, fail })
    signal.addEventListener('abort', () => fail(new DOMException('given up', 'AbortError')))
  })
const keys = () => asked.map(({ key }) => key)
const settle = () => vi.advanceTimersByTimeAsync(0)

beforeEach(() => {
  asked = []
  vi.useFakeTimers()
})
afterEach(() => vi.useRealTimers())

it('asks one at a time and skips what was overtaken', async () => {
  const latest = new Latest<string>()
  for (const key of ['60', '61', '62', '63']) latest.ask(key, work(key))
  expect(keys()).toEqual(['60'])
  asked[0]?.answer('at 60')
  await settle()
  expect(latest.answer).toBe('at 60')
  expect(latest.of).toBe('60')
  expect(latest.waiting).toBe(true)
  expect(keys()).toEqual(['60', '63'])
  asked[1]?.answer('at 63')
  await settle()
  expect([latest.answer, latest.of, latest.waiting]).toEqual(['at 63', '63', false])
})

it('does not ask the same again, unless told to', async () => {
  const latest = new Latest<string>()
  latest.ask('60', work('60'))
  asked[0]?.answer('at 60')
  await settle()
  latest.ask('60', work('60'))
  expect(keys()).toEqual(['60'])
  latest.ask('60', work('60'), true)
  expect(keys()).toEqual(['60', '60'])
})

it('keeps the old answer beside an error and goes on', async () => {
  const latest = new Latest<string>()
  latest.ask('60', work('60'))
  asked[0]?.answer('at 60')
  await settle()
  latest.ask('61', work('61'))
  asked[1]?.fail(new Error('broken'))
  await settle()
  expect(latest.answer).toBe('at 60')
  expect(latest.error?.message).toContain('broken')
  latest.ask('62', work('62'))
  asked[2]?.answer('at 62')
  await settle()
  expect(latest.error).toBeNull()
  expect(latest.answer).toBe('at 62')
})

it('waits for rest and gives up what is older', async () => {
  const latest = new Latest<string>({ rest_ms: 300, give_up_older: true })
  latest.ask('60', work('60'))
  await vi.advanceTimersByTimeAsync(200)
  latest.ask('61', work('61'))
  await vi.advanceTimersByTimeAsync(299)
  expect(keys()).toEqual([])
  await vi.advanceTimersByTimeAsync(1)
  expect(keys()).toEqual(['61'])
  latest.ask('62', work('62'))
  await settle()
  expect(asked[0]?.signal.aborted).toBe(true)
  expect(keys()).toEqual(['61'])
  await vi.advanceTimersByTimeAsync(300)
  expect(keys()).toEqual(['61', '62'])
  asked[1]?.answer('at 62')
  await settle()
  expect([latest.answer, latest.error]).toEqual(['at 62', null])
})

it('says nothing after it is left', async () => {
  const latest = new Latest<string>()
  latest.ask('60', work('60'))
  latest.ask('61', work('61'))
  latest.leave()
  await settle()
  expect(asked[0]?.signal.aborted).toBe(true)
  expect(keys()).toEqual(['60'])
  expect([latest.answer, latest.error]).toEqual([null, null])
})
