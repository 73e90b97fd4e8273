// Undo and redo over revisions: a twin of the server keeps revisions, the trail has to lead through them.
import { expect, it } from 'vitest'
import { can_redo, can_undo, edited, no_trail, opened, step_to, stepped, type Trail } from './trail'

/** Keeps revisions as server/tables.cpp does: what stood before, when it is not the newest, then what stands now. */
class Twin {
  kept: string[] = []
  file: string
  trail: Trail = no_trail
  constructor(file: string) {
    this.file = file
    this.open()
  }
  open(remembered: Trail | null = null) {
    this.trail = opened(remembered, this.kept.length, this.file)
  }
  #put(now: string) {
    if (now === this.file) return
    if (this.kept.at(-1) !== this.file) this.kept.push(this.file)
    this.kept.push(now)
    this.file = now
  }
  edit(now: string) {
    this.#put(now)
    this.trail = edited(this.trail, this.kept.length, this.file)
  }
  step(by: -1 | 1) {
    const to = step_to(this.trail, by)
    if (to === null) throw new Error('no step')
    this.#put(this.kept[to - 1] ?? '')
    this.trail = stepped(this.trail, by, this.kept.length, this.file)
  }
}

it('steps back to the first text and forth to the last', () => {
  const twin = new Twin('a')
  expect(can_undo(twin.trail)).toBe(false)
  for (const text of ['b', 'c', 'd']) twin.edit(text)
  const seen: string[] = []
  while (can_undo(twin.trail)) {
    twin.step(-1)
    seen.push(twin.file)
  }
  while (can_redo(twin.trail)) {
    twin.step(1)
    seen.push(twin.file)
  }
  expect(seen.join('')).toBe('cbabcd')
})

it('forgets what was undone once something else is written', () => {
  const twin = new Twin('a')
  twin.edit('b')
  twin.edit('c')
  twin.step(-1)
  twin.edit('x')
  expect(can_redo(twin.trail)).toBe(false)
  twin.step(-1)
  expect(twin.file).toBe('b')
  twin.step(-1)
  expect(twin.file).toBe('a')
})

it('goes on after a reload where it was', () => {
  const twin = new Twin('a')
  twin.edit('b')
  twin.edit('c')
  twin.step(-1)
  twin.open(twin.trail)
  twin.step(1)
  expect(twin.file).toBe('c')
  twin.step(-1)
  twin.step(-1)
  expect(twin.file).toBe('a')
})

it('keeps a file that was changed on disk: it is undone first, and can be had back', () => {
  const twin = new Twin('a')
  twin.edit('b')
  const remembered = twin.trail
  twin.file = 'disk'
  twin.open(remembered)
  twin.step(-1)
  expect(twin.file).toBe('b')
  twin.step(1)
  expect(twin.file).toBe('disk')
  twin.step(-1)
  twin.step(-1)
  expect(twin.file).toBe('a')
})

it('keeps a file that was changed on disk unnoticed', () => {
  const back = new Twin('a')
  back.edit('b')
  back.file = 'disk'
  back.step(-1)
  expect(back.file).toBe('a')
  back.step(1)
  back.step(1)
  expect(back.file).toBe('disk')

  const forth = new Twin('a')
  forth.edit('b')
  forth.edit('c')
  forth.step(-1)
  forth.file = 'disk'
  forth.step(1)
  expect(forth.file).toBe('c')
  forth.step(-1)
  expect(forth.file).toBe('disk')
  forth.step(-1)
  expect(forth.file).toBe('b')
})

it('takes up what another page wrote, and begins anew without a memory', () => {
  const twin = new Twin('a')
  twin.edit('b')
  const mine = twin.trail
  twin.edit('c')
  twin.open(mine)
  twin.step(-1)
  expect(twin.file).toBe('b')
  twin.open(null)
  expect(can_undo(twin.trail)).toBe(true)
  twin.step(-1)
  expect(twin.file).toBe('c')
  expect(opened({ ...mine, head: 99 }, twin.kept.length, twin.file).steps).toHaveLength(twin.kept.length)
})

it('an edit over a file that was changed on disk keeps all three', () => {
  const twin = new Twin('a')
  twin.edit('b')
  const remembered = twin.trail
  twin.file = 'disk'
  twin.open(remembered)
  twin.edit('d')
  const seen: string[] = []
  while (can_undo(twin.trail)) {
    twin.step(-1)
    seen.push(twin.file)
  }
  expect(seen).toEqual(['disk', 'b', 'a'])
})
