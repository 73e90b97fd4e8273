// What a rule is called beside a verdict, and where a cell stands, in words of the trade. The names that files and
// the command line use (fit.plug-room; board_m2, lanes) stand where somebody looks for them: in the working.
import type { Claim, ClaimChange, Missing } from './json/common'
import { kind_words } from './kinds'
import { long_date } from './words'

// Those whose own name says it less well.
const names: Readonly<Record<string, string>> = {
  'match.complete': 'a part of every kind', 'match.m2-places': 'places for M.2 drives', 'match.sata-ports': 'SATA ports',
  'match.shared-lanes': "lanes shared with the card's slot", 'match.covered-slots': 'slots that the card covers',
  'match.hidden-sockets': 'M.2 sockets under the card', 'match.picture': 'a picture on a display', 'match.board-form': "the board's form in the case",
  'match.psu-form': "the supply's form in the case", 'match.board-connectors': 'plugs for the board', 'match.card-connectors': 'plugs for the card',
  'match.drive-connectors': 'plugs for the drives', 'match.adapters': 'power adapters', 'match.cable-family': "cables of the supply's own family",
  'match.usb2-headers': 'USB 2 headers', 'match.must-memory': 'how much memory there has to be', 'match.must-storage': 'how much storage there has to be',
  'match.must-wifi': 'a radio', 'match.must-front-usb-c': 'a USB-C port at the front', 'match.named-parts': 'parts asked for by name',
  'match.memory-type-cpu': "memory type of the processor", 'match.memory-capacity-cpu': 'memory the processor takes', 'match.memory-capacity': 'memory the board takes',
  'match.module-capacity': 'size of a memory module', 'match.memory-fill': 'memory slots that are filled', 'match.cooler-heat': 'heat the cooler carries',
  'fit.plug-room': "room for the card's plug", 'fit.over-board': 'room over the board', 'fit.over-cooler': 'room over the cooler',
  'fit.tube-reach': 'reach of the tubes', 'fit.moving-air': 'fans that move air', 'fit.card-slots': 'rear slots of the case', 'fit.card-mass': 'weight of the card',
  'fit.board-cables': "cables to the board's inputs", 'fit.card-cables': 'cables to the card', 'fit.drive-cables': 'cables to the drives',
  'power.sustained': 'the supply with everything at work', 'power.slot': "power through the card's slot", 'power.excursions': 'short peaks of the card',
  'power.cpu-inputs': "current of the processor's inputs", 'power.cpu-fan-header': 'processor fan header', 'power.usb-header': 'current of the USB 2 headers',
  'power.wall': 'power at the wall', 'power.circuit': 'the circuit at the wall', 'power.card-contacts': "contacts of the card's plugs",
  'power.supply-advice': "the card maker's advice on the supply", 'forecast.frame-floor': 'frames that are the least', 'forecast.frame-target': 'frames that are asked for',
  'forecast.slow-frames': 'the slowest frames', 'air.cpu-temperature': 'temperature of the processor', 'air.gpu-temperature': 'temperature of the card',
  'air.coolant-temperature': 'temperature of the liquid', 'air.stage-temperature': 'temperature of the power stage', 'air.drive-temperature': 'temperature of the drive',
  'air.exhaust-temperature': 'temperature of the air that leaves', 'air.full-power': 'power kept in the heat', 'air.steady-time': 'time to warm up',
  'market.offer': 'an offer in every market', 'market.age': 'age of the prices', 'market.lone-offer': 'prices of one seller alone', 'market.stock': 'pieces in stock',
  'market.condition': 'condition of what is bought', 'market.tax': 'sales tax'
}

/** `room for the card's plug` of `fit.plug-room`. */
export function rule_words(id: string): string {
  return names[id] ?? id.slice(id.indexOf('.') + 1).replaceAll('-', ' ')
}
/** `short peaks of the card, 1 ms`. */
export const claim_name = ({ id, where }: Pick<Claim, 'id' | 'where'>) => (where ? `${rule_words(id)}, ${bare_id(where)}` : rule_words(id))

/** `Noise: thin before, holds now.` */
export function claim_change_words({ id, where, from, to }: ClaimChange): string {
  const name = claim_name({ id, where })
  const said = from && to ? `${from.verdict} before, ${to.verdict} now` : to ? `${to.verdict}; it did not arise before` : `does not arise any more${from ? `; ${from.verdict} before` : ''}`
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${said}.`
}

const units = /(?<!usb)_(mm|mm2|cm2|w|a|v|c|k|l|kg|gb|gib|gb_s|mt_s|m3_h|pa|dba|hz|fps|ms|us|months|percent|frac)$/
const tables: Readonly<Record<string, string>> = {
  offers: 'offer', board_m2: 'M.2 socket of', noise_points: 'measured noise of', provenance: 'source of a value of', case_ways: 'cable way in', titles: 'title'
}
const table_words = (table: string) => tables[table] ?? table.split('_').map((piece) => (piece === table || table.startsWith(`${piece}_`) ? kind_words(piece) : piece)).join(' ')
/** An id as words; what is no id, such as `12v-2x6` or `GB`, as it stands. */
function bare_id(id: string): string {
  return /^[a-z]+-[a-z]/.test(id) ? id.replaceAll('-', ' ') : id
}
function row_words(table: string, row: string): string {
  const [first = '', ...rest] = row.split('/')
  if (table !== 'offers') return [bare_id(first), ...rest.map(bare_id)].join(', ')
  const [seller = '', market = '', seen = '', condition = ''] = rest
  return [`for ${bare_id(first)}`, seller && `by ${bare_id(seller)}`, market && `in ${market},`, seen && `seen ${long_date(seen)},`, condition].filter(Boolean).join(' ').replace(/,$/, '')
}
/** An equation without its number in the description of an engine: `a <= b` of `a <= b, (T7)`. */
export const equation_words = (equation: string) => equation.replace(/,? *\([A-Z]{1,2}\d+[a-z]?\)/g, '').trim()
/** Names of what a claim speaks of, as far as its working tells them; an id as words where it does not. */
export function subject_names({ subjects, working }: Pick<Claim, 'subjects' | 'working'>): string[] {
  const name = (id: string) => working?.cells.find(({ row, part }) => part !== '' && (row === id || row.startsWith(`${id}/`)))?.part
  return subjects.map((id) => name(id) ?? bare_id(id))
}
/** `card some card 7: height`. A cell without a column is a row that is not there. */
export function place_of_cell({ table, row, column }: Pick<Missing, 'table' | 'row' | 'column'>): string {
  const where = [table_words(table), row && row_words(table, row)].filter(Boolean).join(' ')
  const what = column === '*' ? 'a row of it' : column === 'by_mm' ? 'how much' : column.replace(units, '').replaceAll('_', ' ')
  return what ? `${where}: ${what}` : where
}
