// The staircase of money and score: which step a budget reaches, and where the keys move it.
import type { FrontierJson, Step } from '../lib/json/frontier'
import { minor_digits } from '../lib/numbers'
import { money_words } from '../lib/words'

/** The step that is best for a budget; null where there is none, or none is settled. Steps: cheapest first. */
export function step_at(steps: readonly Step[], budget_minor: number): number | null {
  const found = steps.findIndex((step) => step.price.minor <= budget_minor && budget_minor <= step.covers_to.minor)
  return found < 0 ? null : found
}

/** Where the search was stopped before this budget was settled. */
export const is_unsettled = ({ unsettled = [] }: Pick<FrontierJson, 'unsettled'>, budget_minor: number) =>
  unsettled.some(({ from, to }) => from.minor <= budget_minor && budget_minor <= to.minor)

/** A round amount of money near a hundredth of the span, in minor units: what an arrow key moves. */
export function key_step(frontier: Pick<FrontierJson, 'from' | 'to'>): number {
  const whole = 10 ** minor_digits(frontier.from.currency)
  const span = Math.abs(frontier.to.minor - frontier.from.minor) / whole
  const power = 10 ** Math.floor(Math.log10(Math.max(span / 100, 1)))
  const factor = [1, 2, 5, 10].find((each) => each * power >= span / 100) ?? 10
  return Math.max(1, Math.round(factor * power * whole))
}

/** Where a key moves the budget; null when the key does nothing here. Page keys go from step to step. */
export function moved_by(key: string, budget_minor: number, frontier: FrontierJson): number | null {
  const { from, to, steps } = frontier
  const by = key_step(frontier)
  const prices = steps.map((step) => step.price.minor)
  const inside = (minor: number) => Math.min(to.minor, Math.max(from.minor, minor))
  switch (key) {
    case 'ArrowRight':
    case 'ArrowUp':
      return inside((Math.floor(budget_minor / by) + 1) * by)
    case 'ArrowLeft':
    case 'ArrowDown':
      return inside((Math.ceil(budget_minor / by) - 1) * by)
    case 'PageUp':
      return inside(prices.find((price) => price > budget_minor) ?? to.minor)
    case 'PageDown':
      return inside(prices.filter((price) => price < budget_minor).at(-1) ?? from.minor)
    case 'Home':
      return from.minor
    case 'End':
      return to.minor
    default:
      return null
  }
}

/** What a budget buys, in a sentence. */
export function budget_words(frontier: FrontierJson, budget_minor: number): string {
  const budget = money_words({ currency: frontier.from.currency, minor: budget_minor })
  const at = step_at(frontier.steps, budget_minor)
  const step = at === null ? undefined : frontier.steps[at]
  if (!step)
    return is_unsettled(frontier, budget_minor)
      ? `What ${budget} buys is not settled: the search was stopped before it came there.`
      : `For ${budget} there is no build.`
  const gain = step.gain ? `, ${money_words(step.gain)} more than the step below` : ''
  return `For ${budget} the best build costs ${money_words(step.price)} and is worth ${money_words(step.score)} under the brief (its score)${gain}.`
}
