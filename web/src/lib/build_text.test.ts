// Expectations are written by hand, after docs/brief.md.
import { parse } from 'smol-toml'
import { describe, expect, test } from 'vitest'
import { build_text, parts_of, with_adjustment, with_fan_speeds, with_part, with_swap } from './build_text'

const text = `# chosen by hand
name = "Evening"
cpu = "a-cpu"
fan = [{ id = "a-fan", count = 3 }]
storage = ["one", "two"]

[mounts]
fan = "front"
`

describe('build_text', () => {
  test('writes one part as its id, several as a list', () => {
    const made = build_text('A "b"', {
      cpu: 'a-cpu', storage: [{ id: 'one', count: 1 }], fan: [{ id: 'f', count: 2 }, { id: 'g', count: 1 }], display: []
    })
    expect(made).toBe(
      'name = "A \\"b\\""\ncpu = "a-cpu"\nstorage = "one"\nfan = [{ id = "f", count = 2 }, "g"]\n'
    )
  })
  test('a swap takes one part for another and leaves the rest as written', () => {
    expect(with_swap(text, { kind: 'storage', out: 'two', in: 'three', count: 1 })).toBe(
      text.replace('["one", "two"]', '["one", "three"]')
    )
    expect(with_swap(text, { kind: 'storage', out: 'two', in: '', count: 1 })).toBe(text.replace('["one", "two"]', '"one"'))
    expect(parse(with_swap(text, { kind: 'fan', out: '', in: 'a-fan', count: 1 }) ?? '')).toMatchObject({
      fan: [{ id: 'a-fan', count: 4 }]
    })
  })
  test('a swap of a part for itself changes how many there are', () => {
    expect(parts_of(with_swap(text, { kind: 'fan', out: 'a-fan', in: 'a-fan', count: 5 }) ?? '', 'fan')).toEqual([
      { id: 'a-fan', count: 5 }
    ])
    expect(with_swap(text, { kind: 'fan', out: 'not-there', in: 'b-fan', count: 1 })).toBe(text)
  })
  test('several pieces stay several when their part is exchanged', () => {
    expect(parts_of(with_part(text, 'fan', 'a-fan', 'b-fan') ?? '', 'fan')).toEqual([{ id: 'b-fan', count: 3 }])
  })
  test('the last part of a kind takes the kind out', () => {
    expect(parse(with_part(text, 'cpu', 'a-cpu', null) ?? '')).not.toHaveProperty('cpu')
  })
  test('fan speeds take the place of those before', () => {
    const once = with_fan_speeds(text, [{ fans: 'case', percent: 60 }]) ?? ''
    const twice = with_fan_speeds(once, [{ fans: 'case', percent: 70 }, { fans: 'cooler', percent: 40 }]) ?? ''
    expect(parse(twice).fan_speeds).toEqual([
      { fans: 'case', follows: 'cpu', temp_c: 40, speed_percent: 70 },
      { fans: 'cooler', follows: 'cpu', temp_c: 40, speed_percent: 40 }
    ])
    expect(with_fan_speeds(twice, [])?.trimEnd()).toBe(text.trimEnd())
  })
  test('an adjustment is written into mounts', () => {
    expect(with_adjustment(text, { fans_at: 'top' })).toBe(text.replace('fan = "front"', 'fan = "top"'))
  })
})
