// Hand-made claims and titles; what is expected was counted and worded by hand.
import { expect, it } from 'vitest'
import type { Claim, Title } from './json/common'
import { by_words, cases_words, not_promised, targets_not_held, trust_of } from './trust'

const claim = (id: string, verdict: Claim['verdict'], more: Partial<Claim> = {}): Claim => ({
  id, grade: 'must', where: '', subjects: [], load: '', statement: `${id}.`, verdict, basis: 'part data', source: '',
  remedy: '', missing: [], ...more
})
const roomy = claim('a.roomy', 'holds', { margin_frac: 0.4 })
const near = claim('b.near', 'holds', {
  margin_frac: 0.02, margin: { value: 4, unit: 'mm' }, odds: 1, limit: { relation: 'at_most', value: 200, unit: 'mm' }
})
const told = (verdict: Claim['verdict']) => claim('t', verdict, { grade: 'tells' })

it('says how many hold and names the nearest to failing with its room in its unit', () => {
  const all = trust_of([roomy, near, claim('c.exact', 'holds', { margin_frac: 0 }), told('fails')])
  expect(all.hold).toBe('All 3 claims that count hold.')
  expect([all.nearest?.id, all.nearest_is]).toEqual(['b.near', 'Nearest to failing'])
  expect(all.nearest_by).toBe('4 mm left, 2 % of the limit (at most 200 mm)')
  expect(all.beside).toBe('Told beside, excluding nothing: 1 fails.')
  expect(all.open).toBe('')
  expect(trust_of([roomy]).hold).toBe('The one claim that counts holds.')
  expect(trust_of([]).nearest).toBeNull()
})
it('names what fails among what is only told, the furthest first, but not targets, which have sentences of their own', () => {
  const fails = (id: string, margin_frac: number) => claim(id, 'fails', { grade: 'tells', margin_frac })
  const of = trust_of([
    fails('b', -0.1), claim('must', 'fails'), fails('a', -0.5), fails('forecast.frame-target', -0.7), told('holds'), told('unknown')
  ])
  expect(of.beside_fails.map(({ id }) => id)).toEqual(['a', 'b'])
  expect(trust_of([told('holds')]).beside_fails).toEqual([])
})
it('says in plain words what thin and doubtful are, what fails first, and what is not settled', () => {
  const worse = trust_of(
    [roomy, claim('e', 'unknown'), claim('f', 'fails'), claim('g', 'fails'), claim('h', 'thin'), told('unknown')],
    { odds_all_hold: 0, odds_best: 0.574, beyond: true }
  )
  expect(worse.hold).toBe(
    'Of 5 claims that count, 2 fail, 1 is thin (likely to hold, but not sure), 1 is unknown and 1 holds, all together in no case.'
  )
  expect([worse.nearest?.id, worse.nearest_is]).toEqual(['f', 'First to mend'])
  expect(worse.open).toBe(
    '1 claim that counts is unknown; 1 thing told beside is unknown; it scores highest in 57 of 100 cases, another build in the rest; ' +
      'a build beyond those compared may score highest in more than 5 of 100 cases'
  )
})
it('tells a thin margin by its range and its cases, on whichever side the middle lies', () => {
  const noise = (value: number, low: number, high: number) =>
    claim('air.noise', 'thin', {
      margin: { value, low, high, unit: 'dB(A)' }, margin_frac: value / 34, odds: 0.5,
      limit: { relation: 'at_most', value: 34, unit: 'dB(A)' }
    })
  expect(by_words(noise(0.47, -0.49, 1.5))).toBe(
    '0.5 dB(A) left, 1.4 % of the limit (at most 34 dB(A)); anything between 0.5 dB(A) over and 1.5 dB(A) left is likely, and it holds in 50 of 100 cases'
  )
  expect(by_words(noise(-0.02, -1, 1))).toMatch(/^less than 0.1 dB\(A\) over, .* \(at most 34 dB\(A\)\); anything between 1 dB\(A\) over and 1 dB\(A\) left/)
})
it('counts cases of a hundred and never rounds to certainty', () => {
  expect([1, 0, 0.998, 0.002, 0.71875].map(cases_words)).toEqual([
    'in every case', 'in no case', 'in more than 99 of 100 cases', 'in fewer than 1 of 100 cases', 'in 72 of 100 cases'
  ])
})

const title = (name: string, target_fps: number, more: Partial<Title> = {}): Title => ({ title: name, name, target_fps, ...more })
const fps = (value: number) => ({ rendered_fps: { value, unit: 'fps' } })

it('names every target that is not promised, with why, and every one that is not reached', () => {
  const why_unknown = "no card: the rates of a processor's own graphics are not modelled"
  expect(not_promised([title('Larks', 60, fps(60)), title('Terns', 90, fps(120))])).toEqual([])
  expect(not_promised([title('Larks', 90, { why_unknown }), title('Terns', 60, { why_unknown })])).toEqual([
    "Your targets of 90 fps in Larks and 60 fps in Terns are not promised by it. It has no graphics card, and the rates of a processor's own graphics are not modelled."
  ])
  expect(not_promised([title('Larks', 90, {}), title('Terns', 60, fps(48.2))])).toEqual([
    'Your target of 90 fps in Larks is not promised by it. Its rate is not known.',
    'Your target of 60 fps in Terns is not reached: the mean is 48.2 fps.'
  ])
})
it('tells the same from the claims of targets, and of nothing else', () => {
  const target = (verdict: Claim['verdict']) => claim('forecast.frame-target', verdict, { grade: 'tells', statement: 'Larks reaches its target. No card.' })
  expect(targets_not_held([target('holds'), claim('forecast.frame-floor', 'fails')])).toEqual([])
  expect(targets_not_held([target('unknown'), target('fails')])).toEqual([
    'Not promised, it is not known: Larks reaches its target. No card.',
    'Not promised, it fails: Larks reaches its target. No card.'
  ])
})
