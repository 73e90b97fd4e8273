// The heat path on paper: widths to scale, columns in order, nothing on top of anything.
import { expect, it } from 'vitest'
import { band_paths, heat_layout, stacked, through_w, unaccounted_w, type HeatPath } from './heat_layout'

// Hand-made: 60 W and 240 W go into two rooms, 40 W of the second into the first, all goes out.
const path: HeatPath = {
  load: 'title', fan_speed_percent: 60, room_c: 23,
  places: [
    { id: 'chip', name: 'a processor with a rather long name', kind: 'source', temp_c: 54 },
    { id: 'card', name: 'the card', kind: 'source' },
    { id: 'cooler', name: 'its cooler', kind: 'body' },
    { id: 'upper', name: 'upper', kind: 'room', temp_c: 34 },
    { id: 'lower', name: 'lower', kind: 'room' },
    { id: 'unused', name: 'nothing', kind: 'room' },
    { id: 'outside', name: 'outside', kind: 'outside', temp_c: 23 }
  ],
  flows: [
    { from: 'chip', to: 'cooler', power_w: 60 },
    { from: 'cooler', to: 'upper', power_w: 60 },
    { from: 'card', to: 'lower', power_w: 240 },
    { from: 'lower', to: 'upper', power_w: 40 },
    { from: 'upper', to: 'outside', power_w: 100 },
    { from: 'lower', to: 'outside', power_w: 200 },
    { from: 'unused', to: 'outside', power_w: 0 }
  ]
}
const layout = (width_px = 640, of = path) => {
  const found = heat_layout(of, width_px)
  if (!found) throw new Error('not laid out')
  return found
}
const real = (of = layout()) => of.nodes.filter(({ passing }) => !passing)

it('puts places in columns from sources to the outside and leaves out what no heat goes through', () => {
  const column = Object.fromEntries(real().map(({ place, column: at }) => [place.id, at]))
  expect(column).toEqual({ chip: 0, card: 0, cooler: 1, lower: 1, upper: 2, outside: 3 })
})

it('keeps the balance: what goes through each column is all the heat', () => {
  const { nodes, columns } = layout()
  for (let at = 1; at < columns; at += 1) {
    const inside = nodes.filter((node) => node.column === at)
    const seen = inside.reduce((sum, node) => sum + through_w(node), 0)
    expect(seen).toBeCloseTo(300, 9)
  }
  expect(real().map(unaccounted_w)).toEqual([0, 0, 0, 0, 0, 0])
})

it('draws every band as wide as its watts, side by side at its nodes', () => {
  const { bands, px_per_w } = layout()
  for (const end of ['from', 'to'] as const) {
    const by_node = new Map<unknown, Array<[top: number, bottom: number]>>()
    for (const band of bands) {
      const top = band[`${end}_px`]
      by_node.set(band[end], [...(by_node.get(band[end]) ?? []), [top, top + band.watts * px_per_w]])
    }
    for (const pieces of by_node.values()) {
      pieces.sort((a, b) => a[0] - b[0])
      pieces.slice(1).forEach(([top], i) => expect(top).toBeCloseTo(pieces[i]?.[1] ?? NaN, 6))
    }
  }
})

it('lets no bar or label lie on another, and stays inside, wide and narrow', () => {
  for (const width_px of [320, 640, 900]) {
    const { nodes, columns, px_per_w, height_px } = layout(width_px)
    for (let at = 0; at < columns; at += 1) {
      const inside = nodes.filter((node) => node.column === at).sort((a, b) => a.top_px - b.top_px)
      inside.forEach((node, i) => {
        expect(node.top_px - node.label_px).toBeGreaterThanOrEqual(-1e-6)
        const bottom = node.top_px + through_w(node) * px_per_w
        expect(bottom).toBeLessThanOrEqual(height_px + 1e-6)
        const next = inside[i + 1]
        if (next) expect(next.top_px - next.label_px).toBeGreaterThanOrEqual(bottom + 9 - 1e-6)
      })
    }
  }
})

it('draws nothing where nothing flows or flows run in a circle', () => {
  expect(heat_layout({ ...path, flows: [] }, 640)).toBeNull()
  const circle = [{ from: 'upper', to: 'lower', power_w: 5 }, { from: 'lower', to: 'upper', power_w: 5 }]
  expect(heat_layout({ ...path, flows: circle }, 640)).toBeNull()
  expect(heat_layout({ ...path, flows: [{ from: 'upper', to: 'nowhere', power_w: 5 }] }, 640)).toBeNull()
})

it('hatches what does not add up', () => {
  const flows = path.flows.map((flow) => (flow.from === 'cooler' ? { ...flow, power_w: 50 } : flow))
  const cooler = real(layout(640, { ...path, flows })).find(({ place }) => place.id === 'cooler')
  expect(cooler && unaccounted_w(cooler)).toBeCloseTo(10, 9)
})

it('closes the area of a flow and draws its two edges', () => {
  const { bands, px_per_w } = layout()
  const passing = bands.filter(({ flow }) => flow.from === 'lower' && flow.to === 'outside')
  expect(passing).toHaveLength(2)
  const { area, edges } = band_paths(passing, px_per_w)
  expect(area.match(/Z/g)).toHaveLength(1)
  expect(edges.match(/M/g)).toHaveLength(2)
  expect(area).not.toContain('NaN')
})

it('stacks blocks near to where they want to be', () => {
  expect(stacked([0, 100], [10, 10], 200)).toEqual([0, 100])
  // Both want 50: pooled around it, with 9 between them.
  expect(stacked([50, 50], [10, 10], 200)).toEqual([40.5, 59.5])
  // Pushed back inside.
  expect(stacked([500], [10], 100)).toEqual([90])
  expect(stacked([-50], [10], 100)).toEqual([0])
})
