// Takes the focus to the field of a place; to its section where the field is not written yet.
import { at_of, type Place } from './plain'

const writable = 'input, select, textarea, button'

export function go_to_field(place: Place): void {
  const row = document.querySelector<HTMLElement>(`[data-at="${CSS.escape(at_of(place))}"]`)
  const section = document.getElementById(`section-${place.section}`)
  const field = row?.querySelector<HTMLElement>(writable)
  const target = field ?? section?.querySelector<HTMLElement>('h2') ?? null
  if (!target) return
  if (!field) target.tabIndex = -1
  target.focus({ preventScroll: true })
  const still = matchMedia('(prefers-reduced-motion: reduce)').matches
  target.scrollIntoView({ block: field ? 'center' : 'start', behavior: still ? 'auto' : 'smooth' })
}
