// The five steps of the tour: the page each speaks of, and the piece of it that is pointed at.
import { path_to } from './route'

/** A piece of a page: the first that fits the selector and, where words are given, has a heading with them. */
export interface Piece {
  selector: string
  headed?: string
}
export interface TourStep {
  title: string
  text: string
  /** Where it is shown; without it, where one stands. */
  path?: string
  /** The best first: what is not there yet is waited for, and the next of them pointed at meanwhile. */
  at: readonly Piece[]
}

const heading: Piece = { selector: 'main h1' }

interface Kept {
  id: string
  name: string
}
/**
 * The build of the case and its claims, and a sentence on which it is: the one worked with, else one that was kept
 * from the plan of the brief (PlanPage names those after it), else any, which is then not what the plan just showed.
 */
export function tour_build(
  { build, brief, builds, briefs }: { build: string; brief: string; builds: readonly Kept[]; briefs: readonly Kept[] }
): { build: string; shown: string } {
  const named = ({ name }: Kept, what: string) => `Here it is “${name}”, ${what}.`
  const worked = builds.find(({ id }) => id === build)
  if (worked) return { build, shown: named(worked, 'the build you worked with last') }
  const of = briefs.find(({ id }) => id === brief)?.name
  const found = of === undefined ? undefined : builds.find(({ name }) => name.startsWith(`${of}: `))
  if (found) return { build: found.id, shown: named(found, 'kept from the plan') }
  const any = builds[0]
  return any ? { build: any.id, shown: named(any, 'an example, not the best of the plan before') } : { build: '', shown: '' }
}

/** In: the build of the case and its claims, and a sentence on which it is; both empty where there is none yet. */
export function tour_steps({ brief, build, shown = '' }: { brief: string; build: string; shown?: string }): TourStep[] {
  const with_shown = (text: string) => (shown ? `${text} ${shown}` : text)
  const of_brief = (page: string) => (brief ? path_to(`/${page}/:brief`, { brief }) : `/${page}`)
  const of_build = (page: string) => (build ? path_to(`/${page}/:build`, { build }, brief ? { brief } : {}) : `/${page}`)
  return [
    {
      title: 'A brief says what the build is for',
      text: 'Money by market, titles with the rates they should reach, limits on noise and heat. What you change is kept by itself, and can be undone.',
      path: of_brief('brief'), at: [{ selector: '#section-markets' }, { selector: 'main .empty' }, heading]
    },
    {
      title: 'The plan finds the best builds, with proof',
      text: 'They stand side by side as soon as the search is done, some seconds. Move the budget along the staircase below, or insist on a part, and see what everything else does.',
      path: of_brief('plan'), at: [{ selector: 'main section', headed: 'The best builds' }, { selector: 'main .empty' }, heading]
    },
    {
      title: 'Claims, nearest to failing first',
      text: with_shown('Every sentence about a build has a margin, an interval and a source. Each opens to its working and to what would mend it.'),
      path: of_build('claims'), at: [{ selector: 'main section', headed: 'Claims, nearest to failing' }, { selector: 'main .empty' }, heading]
    },
    {
      title: 'The case, and beside it air and power',
      text: with_shown('Where everything sits and how much room is left, in millimetres. The next mark of the line tells how hot and how loud it gets at any fan speed, and what it draws.'),
      path: of_build('case'), at: [{ selector: 'main section:has(svg)' }, { selector: 'main .empty' }, heading]
    },
    {
      title: 'Parts are tables of your own',
      text: 'Write into them as into a spreadsheet, or paste one in. Everything you saw was computed from these.',
      path: '/parts', at: [{ selector: 'main section', headed: 'What the catalog holds' }, heading]
    }
  ]
}

/** The best of the pieces that is there now. */
export function find_piece(pieces: readonly Piece[], root: ParentNode): Element | null {
  for (const { selector, headed } of pieces)
    for (const found of root.querySelectorAll(selector)) {
      const says = found.querySelector('h2, h3')?.textContent?.trim() ?? ''
      if (headed === undefined || says.startsWith(headed)) return found
    }
  return null
}
