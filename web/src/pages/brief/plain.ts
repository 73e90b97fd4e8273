// What the service says of a brief by its sections and keys, in the words of the form; and which field of the form
// it speaks of.
import type { Trouble } from '../../lib/api'
import type { PartName } from '../../lib/documents'
import { kind_words } from '../../lib/kinds'
import { place_of_line } from '../../lib/toml_edit'
import type { BriefValues, Values } from './brief_text'
import { name_words } from './fields'

/** A field, or a whole section, of the form. */
export interface Place {
  section: string
  index?: number
  key?: string
}

export const section_names: Readonly<Record<string, string>> = {
  brief: 'The brief', markets: 'Markets and money', titles: 'What has to run', loads: 'Loads of your own', limits: 'Limits', use: 'Use',
  room: 'Room', musts: 'Musts', worths: 'Worths', keep: 'Already there', because: 'Chosen for a reason', accept: 'What may enter', display: 'Display'
}
export const limit_names: Readonly<Record<string, string>> = {
  noise_dba: 'Noise', cpu_c: 'Processor', gpu_c: 'Graphics card', coolant_c: 'Liquid', board_stage_c: 'Power stage',
  drive_c: 'Drive', exhaust_c: 'Air that leaves', wall_power_w: 'At the wall', volume_l: 'Outside volume'
}
const of_several: Readonly<Record<string, { key: string; fresh: string }>> = {
  markets: { key: 'market', fresh: 'a new market' }, titles: { key: 'title', fresh: 'a new title' }, loads: { key: 'name', fresh: 'a new load' }
}

/** One of several markets, titles or loads. In: `title_name` says a title's name for its id. */
export function one_name(section: string, values: Values, title_name: (id: string) => string = (id) => id): string {
  const known = of_several[section]
  const written = String(values[known?.key ?? 'name'] ?? '')
  if (written === '') return known?.fresh ?? 'a new one'
  return section === 'titles' ? title_name(written) : written
}

/** `Wide Fallow` of `Wide Fallow (open world; high with rays)`, where no other row is called that. */
export function short_title(titles: readonly PartName[], id: string): string {
  const short = (name: string) => name.replace(/ \(.*\)$/, '')
  const name = titles.find((each) => each.id === id)?.name ?? id
  return titles.filter((each) => short(each.name ?? each.id) === short(name)).length > 1 ? name : short(name)
}

/** Marks a field in the page: `titles.1.floor_fps`. */
export const at_of = ({ section, index, key }: Place): string =>
  [section, index, key].filter((piece) => piece !== undefined).join('.')

/** `What has to run, Wide Fallow: floor`. */
export function place_words(place: Place, values: BriefValues | null, title_name?: (id: string) => string): string {
  const { section, index, key } = place
  const of = section_names[section] ?? section
  const one = index === undefined || !values ? '' : one_name(section, values.several(section)[index] ?? {}, title_name)
  const field = key === undefined ? '' : section === 'limits' ? (limit_names[key] ?? name_words(key))
    : section === 'keep' || section === 'because' ? kind_words(key) : name_words(key)
  const where = [of, one].filter(Boolean).join(', ')
  return field ? `${where}: ${field}` : where
}

/** Of a path as answers write it: `titles.slow-tide.floor_fps`, `limits.volume_l`, `display`. */
export function place_of_path(path: string, values: BriefValues): Place {
  const [first = '', second, ...rest] = path.split('.')
  if (!(first in section_names)) return { section: 'brief', key: path }
  const several = of_several[first]
  if (several && second !== undefined) {
    const index = values.several(first).findIndex((each) => each[several.key] === second)
    return { section: first, ...(index >= 0 ? { index } : {}), ...(rest[0] ? { key: rest[0] } : {}) }
  }
  return second === undefined ? { section: first } : { section: first, key: second }
}

/** What nobody has filled in yet: a required key with nothing between its quotes. */
export function is_unfilled(text: string, line: number): boolean {
  return /=\s*""\s*(#.*)?$/.test(text.split('\n')[line - 1] ?? '')
}
const to_fill: Readonly<Record<string, string>> = {
  'titles.title': 'choose a title', 'markets.market': 'say which country, in two letters', 'markets.currency': 'say which currency, in three letters',
  'markets.budget': 'say how much money there is', 'loads.name': 'give it a name', 'brief.name': 'give it a name'
}

// Sentences that the form says better than the file's description does.
const meanings: Readonly<Record<string, string>> = {
  'What the file is and which offers count. Must be there.': 'What it is called, and which prices count.',
  'an id of titles.csv': 'the game or program, and with which settings',
  'an offer seen exactly so many days before as_of still counts': 'older prices do not count; one seen exactly so many days before the day above still does',
  'the same for a price that only one seller of the market gives: nobody else vouches for it': 'the same for a price that only one seller of the market gives, since nobody else vouches for it',
  'the country, ISO 3166-1 alpha-2': 'the country, in two letters',
  'ISO 4217; offers in this market must be in it': 'in three letters; offers in this market must be in it',
  'id of the part that is already there': 'the part that is already there',
  'id of the part that is wanted': 'the part that is wanted'
}
const quoted = (words: string) => `“${words}”`

/** Sections and keys of the file by the names the form gives them. */
export function plain_words(text: string): string {
  const known = meanings[text]
  if (known !== undefined) return known
  return text
    .replaceAll(/\[\[?([a-z]+)\]\]?/g, (whole, name: string) => (section_names[name] ? quoted(section_names[name]) : whole))
    .replaceAll(/(?<![\w."-])[a-z][a-z0-9]*(?:_[a-z0-9]+)+(?![\w."-])/g, (key) => quoted(name_words(key)))
    .replaceAll('degC', '°C')
}
/** What is wrong with a value; the key's name goes, the field stands beside it. */
export function plain_problem(text: string): string {
  const absent = /^(?:[a-z0-9_]+: )?no such (\w+) in the catalog; expected .*?; got "(.*)"$/.exec(text)
  if (absent) return `the catalog has no ${kind_words(absent[1] ?? '')} called "${absent[2]}": choose one by its name`
  return plain_words(text.replace(/^[a-z][a-z0-9_]*: /, ''))
}

/** Why the brief cannot be held against the catalog, by what the form calls things. */
export function plain_refusal(text: string): string {
  const other = /the offer is in ([A-Z]{3}), but .* states ([A-Z]{3}) for market ([A-Z]{2})(?:; (\d+) such offers)?/.exec(text)
  if (!other) return text
  const [, theirs = '', ours = '', market = '', count] = other
  const offers = count === undefined ? `An offer in ${market} is` : `${count} offers in ${market} are`
  return `${offers} in ${theirs}, but the brief counts money there in ${ours}: write ${theirs} as the currency of ${market}.`
}

export interface Told {
  place: Place | null
  /** `What has to run, Wide Fallow: floor`; of a text that is no TOML `line 4`. */
  where: string
  says: string
  line: number
  /** Not wrong, only still to be filled in. */
  unfilled: boolean
}
export function told_of(trouble: Trouble, text: string, values: BriefValues | null, title_name?: (id: string) => string): Told {
  const line = trouble.line ?? 0
  const place = values ? place_of_line(text, line) : null
  const unfilled = place?.key !== undefined && is_unfilled(text, line)
  const says = unfilled ? (to_fill[`${place.section}.${place.key}`] ?? 'say what it is') : plain_problem(trouble.text)
  const where = place ? place_words(place, values, title_name) : line > 0 ? `line ${line}` : 'The brief'
  return { place, where, says, line, unfilled }
}

/** A sentence around the place it names by its line: `The budget (line 9) stands in the way.` */
export interface AroundPlace {
  before: string
  place: Place | null
  after: string
}
export function around_place(sentence: string, text: string): AroundPlace {
  const told = plain_sentence(sentence)
  const found = / \(line (\d+)\)/.exec(told)
  if (!found) return { before: told, place: null, after: '' }
  return {
    before: told.slice(0, found.index), place: place_of_line(text, Number(found[1])), after: told.slice(found.index + found[0].length)
  }
}
/** What the command line is asked for, the pages have too. */
const plain_sentence = (sentence: string) => sentence.replace(/`rigproof plan` says which\./, 'The plan says which.')

