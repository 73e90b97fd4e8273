// The JSON of rigproof.frontier/1. Made by tools/make_types.mjs: not to be edited.

import type { Change, Date, Money, Odds, Parts, Title, TitleChange } from './common'

export interface Step {
  /** In the first market: from this budget on it is the best build. */
  price: Money
  /** Up to this budget. */
  covers_to: Money
  score: Money
  /** Score over the step below; absent at the first, and where budgets between the two are not settled. */
  gain?: Money
  /** The same for every 50 of money more, rounded to minor units. */
  per_50?: Money
  /** By market. */
  prices: Record<string, Money>
  parts: Parts
  titles: Title[]
  odds_all_hold?: Odds
  /** Must claims. */
  thin: number
  unknown: number
  /** Against the step below. */
  changes: Change[]
  title_changes: TitleChange[]
}

/** What more money buys, as printed by rigproof frontier --json */
export interface FrontierJson {
  schema: "rigproof.frontier/1"
  /** Not proven: stopped; each step that is there stands with proof, and `unsettled` says of which budgets nothing is known. */
  status: "proven" | "not proven" | "impossible"
  brief?: string
  brief_file?: string
  as_of?: Date
  /** The first market: scores and prices of parts are in its currency. */
  market: string
  from: Money
  to: Money
  /** The budget of the brief, from which scores count. */
  counted_from: Money
  /** Cheapest first; price and score both rise strictly. */
  steps: Step[]
  /** Budgets, both ends with them, of which nothing is known, as the search was stopped; smallest first. */
  unsettled?: Array<{
    from: Money
    to: Money
  }>
  /** No build costs less; absent: not known, or there is none. */
  least_price?: Money
  /** Price of the first step with nine tenths of all the gain. */
  nine_tenths_at?: Money
  /** More money buys nothing more, up to `to`. */
  runs_out_at?: Money
  /** Score that `to` would buy more were the budgets of the other markets without bound. */
  other_budgets_cost?: Money
  searches?: number
  nodes?: number
  notes?: string[]
}
