// The declared keys and columns, as the server tells them: what forms are made of.
import { ask } from './api'

export type KeyType =
  | 'text' | 'choice' | 'choices' | 'number' | 'whole' | 'flag' | 'date' | 'money' | 'rate' | 'market' | 'currency'
  | 'resolution' | 'title' | 'part' | 'parts' | 'mount'
export interface KeySpec {
  section: string
  name: string
  type: KeyType
  required: boolean
  meaning: string
  unit?: string
  min?: number
  max?: number
  /** The smallest value itself is not allowed. */
  more_than_min?: boolean
  choices?: string[]
  /** What holds when it is not written. */
  if_absent?: string
}
export interface SectionSpec {
  name: string
  /** As a person writes it. */
  written: string
  meaning: string
}
export interface ColumnSpec {
  name: string
  type: string
  required: boolean
  meaning: string
  unit?: string
  min?: number
  max?: number
  /** A value stands for so much more and less, where provenance says nothing else. */
  tolerance?: number
  tolerance_frac?: number
  /** What an unknown value may be. */
  class_low?: number
  class_high?: number
  choices?: string[]
  /** Table whose rows it names; `part`: any kind. */
  refers?: string
}
export interface TableSpec {
  name: string
  meaning: string
  kind: boolean
  /** The first so many columns name a row. */
  key_columns: number
  columns: ColumnSpec[]
}
export interface Keys {
  sections: SectionSpec[]
  keys: KeySpec[]
}
export interface Forms {
  tables: TableSpec[]
  brief: Keys
  build: Keys
  mapping: Keys
}

let held: Promise<Forms> | null = null
/** Asked once: they change only with the program. */
export function forms(): Promise<Forms> {
  held ??= ask<Forms>('/forms').catch((error: unknown) => {
    held = null
    throw error
  })
  return held
}

/** `14 to 36,500 days`; empty where there are no bounds. */
export function bounds_words({ min, max, more_than_min, unit }: KeySpec): string {
  if (min === undefined || max === undefined) return ''
  const number = (value: number) => value.toLocaleString('en-US')
  const what = more_than_min ? `more than ${number(min)}, at most ${number(max)}` : `${number(min)} to ${number(max)}`
  // Which currency stands beside the field.
  return unit && unit !== 'money' ? `${what} ${unit === 'degC' ? '°C' : unit}` : what
}
