// What the title block takes from the text of a brief.
import { expect, it } from 'vitest'
import { heads_of } from './brief_heads'

it('reads day and markets', () => {
  const text = '[brief]\nname = "x"\nas_of = 2026-10-01\n[[markets]]\nmarket = "IE"\n[[markets]]\nmarket = "GB"\n'
  expect(heads_of('Loft', text)).toEqual({ name: 'Loft', as_of: '2026-10-01', markets: ['IE', 'GB'] })
})
it('takes what is not there, or no TOML, as not stated', () => {
  expect(heads_of('Loft', '[brief]\nas_of = "soon"\nmarkets = 3\n')).toEqual({ name: 'Loft', markets: [] })
  expect(heads_of('Loft', 'as_of =')).toEqual({ name: 'Loft', markets: [] })
})
