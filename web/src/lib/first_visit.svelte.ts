// What this browser remembers of a person's first steps: whether the tour was offered, and which stations of
// the job were looked at.
import { read_marks, with_mark } from './been'

const tour_key = 'rigproof.toured'
const marks_key = 'rigproof.been'

function kept(key: string): string | null {
  try {
    return localStorage.getItem(key)
  } catch {
    return null
  }
}
function keep(key: string, text: string): void {
  try {
    localStorage.setItem(key, text)
  } catch {
    // Storage may be forbidden: it is then remembered as long as the page stands.
  }
}

class FirstVisit {
  touring = $state(false)
  /** The tour was taken, left, or declined: it is not offered again. */
  offered = $state(kept(tour_key) !== null)
  marks = $state.raw<readonly string[]>(read_marks(kept(marks_key)))

  tour(): void {
    this.no_more_offers()
    this.touring = true
  }
  no_more_offers(): void {
    this.offered = true
    keep(tour_key, 'yes')
  }
  mark(mark: string): void {
    const marks = with_mark(this.marks, mark)
    if (marks === this.marks) return
    this.marks = marks
    keep(marks_key, JSON.stringify(marks))
  }
}

export const first_visit = new FirstVisit()
