// A new brief, begun on the first page or beside another.
import { bench } from '../../lib/bench.svelte'
import { new_document, read_table } from '../../lib/documents'
import { long_date } from '../../lib/words'
import { day_of_new, max_price_age_days, new_brief_text, newest_seen } from './brief_text'

/** Keeps a brief of this text, and goes to it. */
export async function add_brief(called: string, text: string, told = ''): Promise<void> {
  const made = await new_document('brief', called, text)
  await bench.load_documents()
  bench.told = told ? { brief: made.id, text: told } : null
  bench.go(`/brief/${made.id}`)
}

export async function begin_brief(): Promise<void> {
  const called = 'A new brief'
  const today = new Date().toISOString().slice(0, 10)
  // Without a table of offers the day is today: no price counts anyway.
  const seen = await read_table('offers').then(newest_seen, () => '')
  const day = day_of_new(today, seen)
  const age = `Prices seen more than ${max_price_age_days} days before that day do not count.`
  const told = day === today
    ? `It speaks of today, ${long_date(day)}. ${age} Both are the first fields below.`
    : `It speaks of ${long_date(day)}, the day of the newest price in the catalog: today, all prices would be too old. ${age} Both are the first fields below.`
  await add_brief(called, new_brief_text(called, day), told)
  bench.build = '' // what lay there was built for another brief
}
