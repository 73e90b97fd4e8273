// Expectations are written by hand; what TOML means is asked of the parser (smol-toml).
import { parse } from 'smol-toml'
import { describe, expect, test } from 'vitest'
import { add_block, cut_comment, remove_block, remove_section, set_key } from './toml_edit'

const brief = `# The couch room.
[brief]
name = "Quiet # not a comment"  # a comment
as_of = 2026-10-01

# where it is bought
[[markets]]
market = "IE"
budget = "1500.00"   # with delivery

[[markets]]
market = "GB"
budget = "1320.00"

[limits]
noise_dba = { at_most = 34, load = "title", distance_m = 1 }
`

describe('set_key', () => {
  test('changes one value and nothing else', () => {
    const edited = set_key(brief, { section: 'markets', index: 0, key: 'budget' }, '"1600.00"')
    expect(edited).toEqual({
      text: brief.replace('budget = "1500.00"   # with delivery', 'budget = "1600.00"   # with delivery'),
      anew: false
    })
  })
  test('of several blocks the one that is named', () => {
    const edited = set_key(brief, { section: 'markets', index: 1, key: 'budget' }, '"1.00"')
    expect(edited?.text).toBe(brief.replace('"1320.00"', '"1.00"'))
  })
  test('a sign of comment within a text is none', () => {
    const edited = set_key(brief, { section: 'brief', key: 'name' }, '"Loud"')
    expect(edited?.text).toBe(brief.replace('"Quiet # not a comment"  # a comment', '"Loud"  # a comment'))
  })
  test('a new key goes to the end of its section, before the comments of the next', () => {
    const edited = set_key(brief, { section: 'brief', key: 'offers_not_older_than_days' }, '14')
    expect(edited?.text).toBe(brief.replace('2026-10-01\n', '2026-10-01\noffers_not_older_than_days = 14\n'))
  })
  test('a section that is not there is put at the end', () => {
    const edited = set_key(brief, { section: 'room', key: 'temp_c' }, '23')
    expect(edited?.text).toBe(`${brief.trimEnd()}\n\n[room]\ntemp_c = 23\n`)
  })
  test('null takes a key out', () => {
    const edited = set_key(brief, { section: 'markets', index: 1, key: 'budget' }, null)
    expect(edited?.text).toBe(brief.replace('budget = "1320.00"\n', ''))
  })
  test('an inline table is one value', () => {
    const edited = set_key(brief, { section: 'limits', key: 'noise_dba' }, '{ at_most = 30, load = "idle", distance_m = 2 }')
    expect(parse(edited?.text ?? '')).toMatchObject({ limits: { noise_dba: { at_most: 30, load: 'idle', distance_m: 2 } } })
    expect(edited?.anew).toBe(false)
  })
  test('what cannot be edited in place is written anew with the same values, and said', () => {
    const odd = '[brief]\nname = "a"\nconditions = [\n  "new",\n  "used",\n]\n'
    const edited = set_key(odd, { section: 'brief', key: 'conditions' }, '["used"]')
    expect(edited?.anew).toBe(true)
    expect(parse(edited?.text ?? '')).toEqual({ brief: { name: 'a', conditions: ['used'] } })
  })
  test('dotted keys of the top are not mistaken', () => {
    const edited = set_key('brief.name = "a"\n', { section: 'brief', key: 'name' }, '"b"')
    expect(parse(edited?.text ?? '')).toEqual({ brief: { name: 'b' } })
  })
  test('a text that is no TOML is left alone', () => {
    expect(set_key('[brief', { section: 'brief', key: 'name' }, '"b"')).toBeNull()
    expect(set_key(brief, { section: 'brief', key: 'name' }, 'not quoted')).toBeNull()
  })
})

describe('blocks', () => {
  test('one more goes after the last of its kind', () => {
    const edited = add_block(brief, 'markets', [['market', '"US"']])
    expect(edited?.text).toBe(brief.replace('"1320.00"\n', '"1320.00"\n\n[[markets]]\nmarket = "US"\n'))
  })
  test('the first of its kind goes to the end', () => {
    const edited = add_block(brief, 'titles', [['title', '"slow-tide"']])
    expect(edited?.text).toBe(`${brief.trimEnd()}\n\n[[titles]]\ntitle = "slow-tide"\n`)
  })
  test('one is taken out with the comment above it', () => {
    const edited = remove_block(brief, 'markets', 0)
    expect(edited?.text).toBe(
      brief.replace('# where it is bought\n[[markets]]\nmarket = "IE"\nbudget = "1500.00"   # with delivery\n\n', '')
    )
  })
  test('a section is taken out', () => {
    const edited = remove_section(brief, 'limits')
    expect(parse(edited?.text ?? '')).not.toHaveProperty('limits')
    expect(edited?.anew).toBe(false)
  })
})

test('cut_comment finds the end of a value', () => {
  expect(cut_comment('a = 1')).toEqual(['a = 1', ''])
  expect(cut_comment('a = "x" # y')).toEqual(['a = "x"', ' # y'])
  expect(cut_comment("a = '#' # y")).toEqual(["a = '#'", ' # y'])
  expect(cut_comment('a = "\\"#" # y')).toEqual(['a = "\\"#"', ' # y'])
  expect(cut_comment('a = [')).toBeNull()
  expect(cut_comment('a = """')).toBeNull()
})

test('a section among several of a name goes alone, and its comments stay where they are', () => {
  const text = '[columns.a]  # the first\nfrom = "A"\n\n[columns.b]\nfrom = "B"\n'
  const less = remove_section(text, 'columns.b')
  expect(less?.anew).toBe(false)
  expect(parse(less?.text ?? '')).toEqual({ columns: { a: { from: 'A' } } })
  expect(less?.text).toContain('# the first')
  const none = remove_section(less?.text ?? '', 'columns.a')
  expect([parse(none?.text ?? 'x'), none?.anew]).toEqual([{}, false])
})
