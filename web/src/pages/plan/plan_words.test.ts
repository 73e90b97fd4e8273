// What a stop leaves open is never told as a proof.
import { describe, expect, it } from 'vitest'
import type { Build, Differences } from '../../lib/json/common'
import type { FrontierJson } from '../../lib/json/frontier'
import type { InsistJson } from '../../lib/json/insist'
import type { PlanJson } from '../../lib/json/plan'
import { column_words, columns_words, conflict_words, meeting_words, note_words, score_words, standing_of, stairs_words, stopped_words, unpromised, wish_words } from './plan_words'

const euro = (minor: number) => ({ currency: 'EUR', minor })

describe('a staircase', () => {
  const of = (status: FrontierJson['status'], steps: number) =>
    stairs_words({ status, from: euro(60_000), to: euro(180_000), steps: Array.from({ length: steps }, () => ({})) } as unknown as FrontierJson)
  it('without steps is proven empty only when it says so', () => {
    expect(of('impossible', 0)).toMatch(/^No budget from .*600.* to .*1,800.* allows a build/)
    expect(of('not proven', 0)).toMatch(/^Not proven/)
    expect(of('not proven', 0)).not.toMatch(/No budget/)
  })
  it('with steps says what is not settled, and nothing when all is', () => {
    expect(of('not proven', 2)).toMatch(/^Not proven/)
    expect(of('proven', 2)).toBeNull()
  })
})

describe('a wish', () => {
  const build = {} as Build
  const changed = (changes: number) => ({ changes: Array.from({ length: changes }, () => ({})) }) as unknown as Differences
  const of = (answer: Partial<InsistJson>) => wish_words({ status: 'proven', ...answer } as InsistJson)
  it('is granted by the best build only where nothing differs', () => {
    expect(of({ with: build, differences: changed(0) })).toMatch(/grants it as it is/)
    expect(of({ with: build, differences: changed(1) })).toBeNull()
  })
  it('that was stopped costs what is not known', () => {
    for (const answer of [of({ status: 'not proven', with: build }), of({ with: build }), of({ status: 'not proven' })])
      expect(answer).toMatch(/^Not proven/)
  })
  it('that nothing grants has its own words elsewhere', () => expect(of({ status: 'impossible' })).toBeNull())
})

describe('a conflict', () => {
  it('of one requirement is spoken of as one', () => {
    expect(conflict_words(1, null)).toBe('This cannot be met')
    expect(conflict_words(1, 2)).toBe('Conflict 2: this cannot be met')
    expect(conflict_words(3, null)).toBe('These cannot all be met')
    expect(conflict_words(2, 1)).toBe('Conflict 1: these cannot all be met')
  })
  it('names the rules it meets in without their ids', () => {
    expect(meeting_words([])).toBe('')
    expect(meeting_words(['fit.case-volume'])).toBe('They meet in the rule on case volume.')
    expect(meeting_words(['match.picture', 'match.must-memory', 'fit.moving-air'])).toBe(
      'They meet in the rules on a picture on a display, how much memory there has to be and fans that move air.'
    )
    expect(meeting_words(['match.display-link', 'forecast.video-memory'])).toBe('They meet in the rules on display link and video memory.')
  })
})

describe('the score', () => {
  it('is told as worth, with the budget and the share of what is saved as the brief has them', () => {
    expect(score_words(euro(150_000), 0.25)).toMatch(/no price.*worth the budget of 1,500.00 EUR.*25 % of what is left/)
    expect(score_words(null, 0)).not.toMatch(/left of the budget| of EUR/)
  })
})

describe('a note', () => {
  it('names keys of the brief as the form does, and leaves other words alone', () => {
    expect(note_words('The brief asks for no reserve of the supply (limits.supply_reserve_frac).')).toBe(
      'The brief asks for no reserve of the supply (“Limits: supply reserve”).'
    )
    expect(note_words('The brief states no mains_v.')).toBe('The brief states no “mains”.')
    expect(note_words('worths.saved_frac (0.2) counts nothing.')).toBe('“Worths: money saved” (0.2) counts nothing.')
    expect(note_words('The score counts frames, plus saved_frac of what is left. It is money.')).toBe(
      'The score counts frames, plus the share the brief states of what is left. It is money.'
    )
    for (const kept of ['Odds are counted over 256 draws; 5.5 % at most.', 'Prices of offers.csv of 1 October.']) expect(note_words(kept)).toBe(kept)
  })
})

describe('a stop', () => {
  const of = (status: PlanJson['status'], builds: number, notes: string[] = []) =>
    stopped_words({ status, notes, builds: Array.from({ length: builds }, () => ({}) as Build) })
  it('after the proof leaves the proof, and says what of the rest is open', () => {
    expect(of('proven', 3, ['Odds.', 'Not settled: a build beyond those.'])).toMatch(/best build is proven; the comparison .* was not ended/)
    expect(of('proven', 1, ['Odds.'])).toMatch(/is proven, and its rivals were compared/)
    expect(of('impossible', 0)).toMatch(/after the proof that no build/)
  })
  it('before it claims no proof', () => {
    expect(of('not proven', 1)).toMatch(/^Stopped before the proof:.*a better one may exist/)
    expect(of('not proven', 0)).toBe('Stopped before any build was found.')
  })
})

describe('the columns of the best', () => {
  const build = (cpu: string, gpu: string, more: Partial<Build> = {}) =>
    ({ places: [{ kind: 'cpu', id: cpu }, ...(gpu ? [{ kind: 'gpu', id: gpu }] : [])], ...more }) as unknown as Build
  it('say by which of the pair they differ from the first', () => {
    const builds = [build('a', 'x'), build('a', 'y'), build('b', 'x'), build('b', 'y', { rival: true }), build('a', ''), build('b', '')]
    expect(builds.map((_, i) => column_words(builds, i))).toEqual([
      'the best', 'number 2, with another card', 'number 3, with another processor', 'rival, with another processor and card',
      'number 5, with no card', 'number 6, with no card and another processor'
    ])
  })
  it('say what has no column, where there are several', () => {
    expect(columns_words([build('a', 'x')])).toBe('')
    expect(columns_words([build('a', 'x'), build('b', 'x')])).toMatch(/pair of processor and graphics chip.* another memory kit/)
    expect(columns_words([build('a', 'x'), build('b', 'x')])).not.toMatch(/rival/)
    expect(columns_words([build('a', 'x'), build('b', 'x', { rival: true })])).toMatch(/A rival/)
  })
})

describe('the best build', () => {
  const build = (odds_best: number) => ({ odds_best, odds_all_hold: 0.7 }) as Build
  it('is only told best in so many cases where the search was not stopped', () => {
    expect(standing_of({ status: 'proven', builds: [build(0.6)] })).toEqual({ odds_best: 0.6, odds_all_hold: 0.7, beyond: false })
    expect(standing_of({ status: 'not proven', builds: [build(0.6)] }).odds_best).toBeUndefined()
    expect(standing_of({ status: 'proven', builds: [build(1)], notes: ['Not settled: a build beyond those.'] }).beyond).toBe(true)
  })
  it('without any rate that is known is best by what it costs alone, and says so', () => {
    const known = { title: 'a', target_fps: 60, rendered_fps: { value: 70, unit: 'fps' } }
    expect(unpromised([])).toEqual([])
    expect(unpromised([known, { title: 'b', target_fps: 60 }])).toHaveLength(1)
    expect(unpromised([{ title: 'b', target_fps: 60 }]).at(-1)).toMatch(/least to pay/)
  })
})
