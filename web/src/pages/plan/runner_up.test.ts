// A hand-made answer; expectations are written by hand.
import { expect, test } from 'vitest'
import type { InsistJson } from '../../lib/json/insist'
import { runner_up_of } from './runner_up'

const place = { place: 'card slot', kind: 'gpu', id: 'a', name: 'Card A', count: 1, origin: 'chosen' as const }
const part = (id: string, name: string) => ({ id, name, count: 1 })
const build = { score: { currency: 'EUR', minor: 1 }, prices: {}, parts: {}, titles: [], claims: [] }

test('gains and losses are told apart', () => {
  const answer: InsistJson = {
    schema: 'rigproof.insist/1', status: 'proven', insisted: [], without: [], conflicts: [], with: build, free: build,
    differences: {
      score_change: { currency: 'EUR', minor: -499 },
      price_changes: { IE: { currency: 'EUR', minor: -2000 }, GB: { currency: 'GBP', minor: 150 } },
      swaps: 2,
      changes: [
        { kind: 'gpu', out: [part('a', 'Card A')], in: [part('b', 'Card B')], swaps: 1 },
        { kind: 'psu', out: [part('p', 'P')], in: [part('q', 'Q')], swaps: 1 }
      ],
      title_changes: [
        { title: 't', name: 'Slow Tide', target_fps: 60, from_fps: { value: 88, unit: 'fps' }, to_fps: { value: 73, unit: 'fps' } }
      ],
      claim_changes: [
        { id: 'air.noise', where: '', load: '', from: { verdict: 'thin' }, to: { verdict: 'holds' } },
        { id: 'fit.card-length', where: '', load: '', from: { verdict: 'holds' }, to: { verdict: 'holds' } }
      ]
    }
  }
  expect(runner_up_of(place, answer)).toEqual({
    id: 'a', place: 'card slot', name: 'Card A', runner_up: 'Card B', score: { currency: 'EUR', minor: -499 },
    gains: ['20.00 EUR cheaper in IE', 'noise holds, was thin'],
    loses: ['1.50 GBP dearer in GB', 'Slow Tide: 73 fps instead of 88 fps', 'also exchanges supply']
  })
})

test('without the part nothing satisfies the brief', () => {
  const answer: InsistJson = { schema: 'rigproof.insist/1', status: 'impossible', insisted: [], without: [], conflicts: [] }
  expect(runner_up_of(place, answer).runner_up).toBeNull()
})
