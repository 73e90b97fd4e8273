// What the title block takes from the text of a brief.
import { expect, it } from 'vitest'
import { brief_facts } from './brief_facts'

it('reads day and markets', () => {
  const text = '[brief]\nname = "x"\nas_of = 2026-10-01\n[[markets]]\nmarket = "IE"\n[[markets]]\nmarket = "GB"\n'
  expect(brief_facts(text)).toEqual({ as_of: '2026-10-01', markets: ['IE', 'GB'] })
})
it('takes what is not there, or no TOML, as not stated', () => {
  expect(brief_facts('[brief]\nas_of = "soon"\nmarkets = 3\n')).toEqual({})
  expect(brief_facts('as_of =')).toEqual({})
})
