import { expect, test } from 'vitest'
import { with_saved, type DocumentHead } from './documents'

const head = (id: string, name: string, revision: number): DocumentHead => ({
  id, kind: 'brief', name, revision, head_revision: revision, saved_at: '2026-10-01T08:00:00Z', deleted: false
})
const list = [head('a', 'Attic', 3), head('b', 'Boat', 1)]

test('what was saved comes first, by its new name', () => {
  const now = with_saved(list, { id: 'b', name: 'Barge', revision: 2, saved_at: '2026-10-02T08:00:00Z' })
  expect(now.map(({ id, name, revision, saved_at }) => [id, name, revision, saved_at])).toEqual([
    ['b', 'Barge', 2, '2026-10-02T08:00:00Z'], ['a', 'Attic', 3, '2026-10-01T08:00:00Z']
  ])
  expect(list[1]?.name).toBe('Boat')
})
test('where nothing is new the list stays as it is', () => {
  expect(with_saved(list, { id: 'b', name: 'Boat', revision: 1, saved_at: '2026-10-01T08:00:00Z' })).toBe(list)
  expect(with_saved(list, { id: 'c', name: 'Other', revision: 1, saved_at: '' })).toBe(list)
})
