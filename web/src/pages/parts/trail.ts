// Undo and redo over a table's kept revisions. Putting one back makes a new revision, so the place in
// the trail has to be remembered: this is that memory, kept in the browser.

/** What stands in the file and was not made here: it gets a number when something is put over it. */
export const not_kept = 0

export interface Trail {
  /** Revisions in the order in which they may be stepped through. */
  steps: readonly number[]
  /** Which of them the file is like now. */
  at: number
  /** The newest revision there was. */
  head: number
  /** Of the file, when this was written. */
  revision: string
}

export const no_trail: Trail = { steps: [], at: -1, head: 0, revision: '' }

/** The revisions from a to b. */
const from_to = (a: number, b: number) => Array.from({ length: Math.max(0, b - a + 1) }, (_, i) => a + i)

/**
 * The trail of a table that is opened: what was remembered of it, what was kept since by others, and
 * the file as it stands when nobody kept that.
 */
export function opened(remembered: Trail | null, head: number, revision: string): Trail {
  if (head === 0) return { ...no_trail, revision }
  if (!remembered || remembered.head > head || remembered.at >= remembered.steps.length)
    return { steps: from_to(1, head), at: head - 1, head, revision }
  const { steps, at } = remembered
  if (remembered.head < head) {
    const all = [...steps.slice(0, at + 1), ...from_to(remembered.head + 1, head)]
    return { steps: all, at: all.length - 1, head, revision }
  }
  if (remembered.revision === revision) return remembered
  const all = [...steps.slice(0, at + 1), not_kept]
  return { steps: all, at: all.length - 1, head, revision }
}

/** After an edit that was written: the newest revision is `head`. */
export function edited(trail: Trail, head: number, revision: string): Trail {
  const made = from_to(trail.head + 1, head)
  // The file as it was before is kept first: the number of what had none, or a revision that stands already.
  const before = trail.steps.slice(0, trail.at + 1).filter((step) => step !== not_kept)
  const steps = [...before, ...made]
  return { steps, at: steps.length - 1, head, revision }
}

export const can_undo = (trail: Trail) => trail.at > 0
export const can_redo = (trail: Trail) => trail.at >= 0 && trail.at < trail.steps.length - 1

/** The revision to put back for a step; null: there is none. */
export function step_to(trail: Trail, by: -1 | 1): number | null {
  const step = trail.steps[trail.at + by]
  return step === undefined || step === not_kept ? null : step
}

/**
 * After that revision was put back and `head` is the newest: a file that was changed elsewhere was kept
 * as the one before it, and may be stepped to again.
 */
export function stepped(trail: Trail, by: -1 | 1, head: number, revision: string): Trail {
  const steps = [...trail.steps]
  const kept_before = head > trail.head + 1 ? head - 1 : null
  if (kept_before !== null) {
    if (steps[trail.at] === not_kept) steps[trail.at] = kept_before
    else if (by < 0) steps.splice(trail.at + 1, steps.length, kept_before)
    else steps.splice(trail.at + 1, 0, kept_before)
  }
  const target = trail.at + by + (kept_before !== null && by > 0 && trail.steps[trail.at] !== not_kept ? 1 : 0)
  return { steps, at: target, head, revision }
}

const key_of = (table: string) => `rigproof.trail.${table}`

export function remembered_trail(table: string): Trail | null {
  try {
    const found = JSON.parse(localStorage.getItem(key_of(table)) ?? 'null') as Partial<Trail> | null
    if (!found || !Array.isArray(found.steps) || !found.steps.every((step) => Number.isInteger(step))) return null
    const { steps, at, head, revision } = found
    return typeof at === 'number' && typeof head === 'number' && typeof revision === 'string' ? { steps, at, head, revision } : null
  } catch {
    return null
  }
}
export function remember_trail(table: string, trail: Trail): void {
  try {
    localStorage.setItem(key_of(table), JSON.stringify({ ...trail, steps: trail.steps.slice(-200), at: Math.max(0, trail.at - Math.max(0, trail.steps.length - 200)) }))
  } catch {
    // Storage may be forbidden: the trail then begins at the newest revision after a reload.
  }
}
