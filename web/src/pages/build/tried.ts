// What a remedy does to the file of a build, and how that is told once it was done.
import { with_adjustment, with_swap } from '../../lib/build_text'
import type { Adjustment, Claim } from '../../lib/json/common'
import { readable } from '../../lib/numbers'

type Remedy = Pick<Claim, 'swap' | 'adjustment'>

/** Null for a text that is no TOML; the text itself where the claim has no remedy that could be tried. */
export function with_remedy(text: string, { swap, adjustment }: Remedy): string | null {
  if (adjustment) return with_adjustment(text, adjustment)
  return swap ? with_swap(text, swap) : text
}

function adjusted_words({ radiator_at, fans_at, case_speed_percent, cooler_speed_percent }: Adjustment): string {
  const said: string[] = []
  if (radiator_at) said.push(`mounted the radiator at ${radiator_at}`)
  if (fans_at) said.push(`mounted the fans at ${fans_at}`)
  if (case_speed_percent !== undefined && case_speed_percent === cooler_speed_percent)
    said.push(`set all fans to ${readable(case_speed_percent)} %`)
  else {
    if (case_speed_percent !== undefined) said.push(`set the case's fans to ${readable(case_speed_percent)} %`)
    if (cooler_speed_percent !== undefined) said.push(`set the cooler's to ${readable(cooler_speed_percent)} %`)
  }
  return said.join(' and ')
}

/** `Took the quiet fan instead of the loud one.` In: names of parts by kind and id. */
export function tried_words({ swap, adjustment }: Remedy, name: (kind: string, id: string) => string): string {
  const sentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`
  if (adjustment) return sentence(adjusted_words(adjustment))
  if (!swap) return ''
  const pieces = swap.count > 1 ? `${swap.count} pieces of ` : ''
  const into = swap.in ? `${pieces}${name(swap.kind, swap.in)}` : ''
  const out = swap.out ? name(swap.kind, swap.out) : ''
  if (!into) return sentence(`left out ${out}`)
  if (!out) return sentence(`added ${into}`)
  return sentence(swap.in === swap.out ? `took ${into}` : `took ${into} instead of ${out}`)
}
