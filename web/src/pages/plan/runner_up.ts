// The runner-up of a place, told from the best build without the part that sits there.
import type { Money, Place } from '../../lib/json/common'
import type { InsistJson } from '../../lib/json/insist'
import { kind_words } from '../../lib/kinds'
import { rule_words } from '../../lib/rule_words'
import { money_words, value_words } from '../../lib/words'

export interface RunnerUpLine {
  id: string
  place: string
  name: string
  /** Null: nothing satisfies the brief without the part. */
  runner_up: string | null
  score?: Money
  gains: string[]
  loses: string[]
}

const order = ['fails', 'doubtful', 'unknown', 'thin', 'holds']
const amount = (money: Money) => money_words({ ...money, minor: Math.abs(money.minor) })

export function runner_up_of(place: Place, answer: InsistJson): RunnerUpLine {
  const line: RunnerUpLine = {
    id: place.id, place: place.place, name: place.name ?? place.id, runner_up: null, gains: [], loses: []
  }
  const { differences } = answer
  if (!answer.with || !differences) return line
  const own = differences.changes.find(({ kind }) => kind === place.kind)
  line.runner_up = own?.in.map(({ count, name, id }) => `${count > 1 ? `${count} x ` : ''}${name || id}`).join(', ') || 'nothing in its place'
  if (differences.score_change) line.score = differences.score_change
  for (const [market, change] of Object.entries(differences.price_changes ?? {})) {
    if (change.minor < 0) line.gains.push(`${amount(change)} cheaper in ${market}`)
    if (change.minor > 0) line.loses.push(`${amount(change)} dearer in ${market}`)
  }
  for (const { name, from_fps, to_fps } of differences.title_changes) {
    if (!from_fps || !to_fps) continue
    const told = `${name}: ${value_words({ value: to_fps.value, unit: to_fps.unit })} instead of ${value_words({ value: from_fps.value, unit: from_fps.unit })}`
    if (to_fps.value > from_fps.value) line.gains.push(told)
    else line.loses.push(told)
  }
  for (const { id, from, to } of differences.claim_changes) {
    if (!from || !to || from.verdict === to.verdict) continue
    const told = `${rule_words(id)} ${to.verdict}, was ${from.verdict}`
    if (order.indexOf(to.verdict) > order.indexOf(from.verdict)) line.gains.push(told)
    else line.loses.push(told)
  }
  const also = differences.changes.filter(({ kind }) => kind !== place.kind).map(({ kind }) => kind_words(kind))
  if (also.length > 0) line.loses.push(`also exchanges ${also.join(', ')}`)
  return line
}
