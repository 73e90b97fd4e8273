// What must hold of every drawing, whatever the build: words touch no line and no other words, dimension
// lines lie outside, each part is named once or said beside. Scenes: the demo's, and odd ones.
import { describe, expect, it } from 'vitest'
import type { SceneJson } from '../lib/json/scene'
import scene_fails from '../gallery/sample/scene_fails.json'
import scene_holds from '../gallery/sample/scene.json'
import { dimension_words, gap_name, gap_share_words, gap_words, lay_out, type Layout } from './layout'
import { crosses, overlap, Placer } from './placer'
import { flatten, gap_key, lies_in, views, type Rect, type View } from './view'

const scenes = [scene_holds, scene_fails] as unknown as SceneJson[]
const cases = scenes.flatMap((scene) =>
  views.flatMap((view) =>
    [280, 340, 560, 860].flatMap((width_px) =>
      [null, ...scene.gaps.map(gap_key)].map((chosen) => ({ scene, view, width_px, chosen }))
    )
  )
)
const each_layout = (check: (layout: Layout, scene: SceneJson, view: View) => void) => {
  for (const { scene, ...options } of cases)
    check(lay_out(scene, { ...options, most_height_px: 620 }), scene, options.view)
}
const words_of = (layout: Layout) => [
  ...layout.names,
  ...layout.gaps.flatMap(({ label }) => (label ? [label] : []))
]

describe('in every view, at every width, whatever is chosen', () => {
  it('words touch no edge and no other words, and stay on the paper', () => {
    each_layout((layout) => {
      const words = words_of(layout)
      for (const [i, word] of words.entries()) {
        expect(layout.edges.filter((edge) => crosses(edge, word.room)), word.text).toEqual([])
        expect(words.filter((other, k) => k > i && overlap(other.room, word.room)), word.text).toEqual([])
        expect(word.room.left).toBeGreaterThanOrEqual(0)
        expect(word.room.right).toBeLessThanOrEqual(layout.width_px)
        expect(word.room.top).toBeGreaterThanOrEqual(layout.top_px)
        expect(word.room.bottom).toBeLessThanOrEqual(layout.bottom_px)
      }
    })
  })
  it('every box is named once, in the drawing or beside it', () => {
    each_layout((layout, scene) => {
      const said = layout.also.filter((text) => scene.boxes.some(({ name }) => text === name || text === `${name} ?`))
      expect(layout.names.length + said.length).toBe(scene.boxes.length)
    })
  })
  it('every dimension of the view is drawn or said beside it', () => {
    each_layout((layout, scene, view) => {
      const all = new Set([...layout.dimensions.map(({ text }) => text), ...layout.also])
      const in_view = scene.dimensions.filter(({ axis }) => lies_in(axis, view))
      expect(in_view.length).toBeGreaterThan(2)
      for (const dimension of in_view) expect(all).toContain(dimension_words(dimension))
    })
  })
  it('dimension lines lie outside what they measure', () => {
    each_layout((layout) => {
      const box: Rect = {
        left: Math.min(...layout.boxes.map(({ at }) => at.left)), right: Math.max(...layout.boxes.map(({ at }) => at.right)),
        top: Math.min(...layout.boxes.map(({ at }) => at.top)), bottom: Math.max(...layout.boxes.map(({ at }) => at.bottom))
      }
      for (const { line, upright } of layout.dimensions) {
        const outside = upright ? line.x1 < box.left || line.x1 > box.right : line.y1 < box.top || line.y1 > box.bottom
        expect(outside).toBe(true)
      }
    })
  })
})

it('an empty scene, and one with a single box, are drawn all the same', () => {
  const empty: SceneJson = {
    schema: 'rigproof.scene/1', title: 'none', size_mm: [0, 0, 0], boxes: [], gaps: [], dimensions: [], notes: []
  }
  const first = scenes[0]?.boxes[0]
  for (const view of views) {
    expect(flatten(empty, view).edges).toEqual([])
    expect(Number.isFinite(lay_out(empty, { view, width_px: 300, most_height_px: 600, chosen: null }).bottom_px)).toBe(true)
    const one = { ...empty, boxes: first ? [first] : [] }
    expect(lay_out(one, { view, width_px: 300, most_height_px: 600, chosen: null }).names).toHaveLength(1)
  }
})

it('says clearances and dimensions in words', () => {
  const gap = scenes[1]?.gaps[0]
  expect(gap && gap_words({ ...gap, margin_mm: -20.94 })).toBe('20.9 mm over')
  expect(gap && gap_words({ ...gap, margin_mm: 4 })).toBe('4 mm left')
  expect(gap && gap_share_words({ ...gap, margin_mm: -4, limit_mm: 160 })).toBe('2.5 % of the limit')
  expect(gap && gap_share_words({ ...gap, limit_mm: 0 })).toBe('')
  expect(gap_name({ claim: 'fit.cooler-memory', where: 'nearest socket' })).toBe('cooler memory, nearest socket')
  const across = { text: 'card', axis: 'x', from_mm: 0, to_mm: 321, plus_minus_mm: 2, at_mm: [0, 0, 0] } as const
  expect(dimension_words({ ...across, at_mm: [0, 0, 0] })).toBe('card 321 ±2')
})

it('knows when a line meets a rectangle', () => {
  const rect = { left: 0, top: 0, right: 10, bottom: 10 }
  expect(crosses({ x1: -5, y1: 5, x2: 15, y2: 5 }, rect)).toBe(true)
  expect(crosses({ x1: -5, y1: 12, x2: 15, y2: 12 }, rect)).toBe(false)
  expect(crosses({ x1: -4, y1: 5, x2: 5, y2: -4 }, rect)).toBe(true) // through x + y = 1
  expect(crosses({ x1: -5, y1: 4, x2: 4, y2: -5 }, rect)).toBe(false) // along x + y = -1
  const placer = new Placer({ left: 0, top: 0, right: 50, bottom: 20 })
  expect(placer.inside('a', { left: 0, top: 0, right: 50, bottom: 20 }, 20, 10)).not.toBeNull()
  expect(placer.inside('b', { left: 0, top: 0, right: 20, bottom: 20 }, 20, 10)).toBeNull()
})
