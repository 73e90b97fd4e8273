import { expect, test } from 'vitest'
import { find_piece, tour_build, tour_steps } from './tour'

test('each step goes to the page it speaks of', () => {
  expect(tour_steps({ brief: 'b1', build: 'x1' }).map(({ path }) => path)).toEqual([
    '/brief/b1', '/plan/b1', '/claims/x1?brief=b1', '/case/x1?brief=b1', '/parts'
  ])
})
test('where there is nothing yet, to the page that says what to do first', () => {
  expect(tour_steps({ brief: '', build: '' }).map(({ path }) => path)).toEqual(['/brief', '/plan', '/claims', '/case', '/parts'])
})

const kept = [{ id: 'x', name: 'Tall trap' }, { id: 'y', name: 'Quiet room: Card with Chip' }, { id: 'z', name: 'Loud room: Card' }]
const briefs = [{ id: 'b', name: 'Quiet room' }, { id: 'c', name: 'Den' }]
test('shows the build worked with, else one kept from the plan, and says of an example that it is one', () => {
  const of = (build: string, brief: string, builds = kept) => tour_build({ build, brief, builds, briefs })
  expect(of('x', 'b')).toEqual({ build: 'x', shown: 'Here it is “Tall trap”, the build you worked with last.' })
  expect(of('', 'b')).toEqual({ build: 'y', shown: 'Here it is “Quiet room: Card with Chip”, kept from the plan.' })
  expect(of('removed', 'c')).toEqual({ build: 'x', shown: 'Here it is “Tall trap”, an example, not the best of the plan before.' })
  expect(of('', 'none').build).toBe('x')
  expect(of('', 'b', [])).toEqual({ build: '', shown: '' })
})
test('says which build it is where the build is shown', () => {
  const texts = (shown: string) => tour_steps({ brief: 'b', build: 'x', shown }).map(({ text }) => text.endsWith(' Here it is.'))
  expect(texts('Here it is.')).toEqual([false, false, true, true, false])
})

interface Fake {
  name: string
  heading?: string
}
/** A page that answers selectors from a list; there is no document where this runs. */
function page(found: Record<string, readonly Fake[]>): ParentNode {
  const element = ({ name, heading }: Fake) => ({
    name, querySelector: () => (heading === undefined ? null : { textContent: ` ${heading} ` })
  })
  return { querySelectorAll: (selector: string) => (found[selector] ?? []).map(element) } as unknown as ParentNode
}
const name_of = (found: Element | null) => (found as unknown as Fake | null)?.name

test('the best piece that is there is pointed at', () => {
  const pieces = [{ selector: 'section', headed: 'The best' }, { selector: 'h1' }]
  const heading = { h1: [{ name: 'title' }] }
  const other = { name: 'other', heading: 'What it rests on' }
  expect(name_of(find_piece(pieces, page(heading)))).toBe('title')
  expect(name_of(find_piece(pieces, page({ ...heading, section: [other, { name: 'bare' }] })))).toBe('title')
  expect(name_of(find_piece(pieces, page({ ...heading, section: [other, { name: 'best', heading: 'The best builds' }] })))).toBe('best')
  expect(find_piece(pieces, page({}))).toBeNull()
})
