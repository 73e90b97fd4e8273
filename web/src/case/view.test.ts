// Projection, hidden lines and clearances on a scene of three hand-made boxes.
import { expect, it } from 'vitest'
import type { Box, Gap } from '../lib/json/common'
import type { SceneJson } from '../lib/json/scene'
import { eye_of, flatten, gap_extent, nearest_view, paper_point, paper_rect, parts_of_gap, view_for } from './view'

const box = (name: string, use: Box['use'], x: [number, number], y: [number, number], z: [number, number]): Box => ({
  name, part: name, use, x, y, z, placed: [true, true, true], sized: [true, true, true]
})
const gap = (over: Partial<Gap>): Gap => ({
  claim: 'fit.x', where: '', axis: 'x', from_mm: 60, to_mm: 80, at_mm: [70, 20, 50], value_mm: 0, limit_mm: 0,
  margin_mm: 20, verdict: 'holds', ...over
})
const scene: SceneJson = {
  schema: 'rigproof.scene/1', title: 't', size_mm: [100, 50, 120], dimensions: [], notes: [],
  boxes: [
    box('case', 'outline', [0, 100], [-10, 40], [0, 120]),
    box('card', 'card', [0, 60], [0, 30], [40, 60]), // nearer to the side panel
    box('board', 'board', [0, 50], [-2, 0], [20, 100]),
    box('fan', 'fan', [80, 100], [0, 40], [30, 110])
  ],
  gaps: [gap({})]
}

it('lays the views out as true views', () => {
  const card = scene.boxes[1] as Box
  expect(paper_rect(card, 'side')).toEqual({ left: 0, top: -60, right: 60, bottom: -40 })
  expect(paper_rect(card, 'top')).toEqual({ left: 0, top: 0, right: 60, bottom: 30 })
  expect(paper_rect(card, 'front')).toEqual({ left: -30, top: -60, right: -0, bottom: -40 })
  expect(paper_point([1, 2, 3], 'front')).toEqual({ x: -2, y: -3 })
})

it('hides what lies behind a body, and only there', () => {
  const board = flatten(scene, 'side').edges.filter((edge) => edge.index === 2)
  // The board's right edge x = 50 runs from z 20 to 100; the card covers z 40 to 60.
  const right = board.filter((edge) => edge.x1 === 50 && edge.x2 === 50)
  expect(right).toEqual([
    { x1: 50, y1: -100, x2: 50, y2: -60, index: 2, hidden: false },
    { x1: 50, y1: -60, x2: 50, y2: -40, index: 2, hidden: true },
    { x1: 50, y1: -40, x2: 50, y2: -20, index: 2, hidden: false }
  ])
  const from_above = flatten(scene, 'top').edges.filter((edge) => edge.index === 2)
  expect(from_above.every((edge) => !edge.hidden)).toBe(true) // the board stands higher than the card
})

it('finds the two parts of a clearance, the wall of the case too', () => {
  expect(parts_of_gap(scene, gap({}))).toEqual([1, 3])
  expect(parts_of_gap(scene, gap({ axis: 'y', from_mm: 30, to_mm: 40, at_mm: [30, 35, 50] }))).toEqual([1, 0])
  expect(parts_of_gap(scene, gap({ from_mm: 60, to_mm: 75 }))).toEqual([1, -1])
})

it('makes a clearance as wide as both parts', () => {
  expect(gap_extent(scene, gap({}))).toEqual({ x: [60, 80], y: [0, 30], z: [40, 60] })
  // Overlapping: the two ends in order.
  expect(gap_extent(scene, gap({ from_mm: 60, to_mm: 55 })).x).toEqual([55, 60])
  expect(gap_extent(scene, gap({ from_mm: 10, to_mm: 15, at_mm: [12, 200, 300] })).z).toEqual([290, 310])
})

it('knows which drawing is nearest to what is seen', () => {
  expect(nearest_view({ turn_deg: 10, tilt_deg: 20 })).toBe('side')
  expect(nearest_view({ turn_deg: 70, tilt_deg: 10 })).toBe('front')
  expect(nearest_view({ turn_deg: 30, tilt_deg: 70 })).toBe('top')
  expect(eye_of({ turn_deg: 90, tilt_deg: 0 }).x).toBeCloseTo(1, 12)
  expect(view_for('y', 'side')).toBe('front')
  expect(view_for('x', 'top')).toBe('top')
})
