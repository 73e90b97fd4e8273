import { expect, test } from 'vitest'
import { find_piece, tour_steps } from './tour'

test('each step goes to the page it speaks of', () => {
  expect(tour_steps({ brief: 'b1', build: 'x1' }).map(({ path }) => path)).toEqual([
    '/brief/b1', '/plan/b1', '/claims/x1?brief=b1', '/case/x1?brief=b1', '/parts'
  ])
})
test('where there is nothing yet, to the page that says what to do first', () => {
  expect(tour_steps({ brief: '', build: '' }).map(({ path }) => path)).toEqual(['/brief', '/plan', '/claims', '/case', '/parts'])
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
