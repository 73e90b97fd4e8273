// What a stop leaves open is never told as a proof.
import { describe, expect, it } from 'vitest'
import type { Build, Differences } from '../../lib/json/common'
import type { FrontierJson } from '../../lib/json/frontier'
import type { InsistJson } from '../../lib/json/insist'
import { stairs_words, wish_words } from './plan_words'

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
