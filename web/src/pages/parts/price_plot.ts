// The step lines of prices on uPlot: ink and dashes, a letter at each line's end. Loaded when it is
// first shown.
import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import { spread_out } from '../../chart/axis'
import { readable } from '../../lib/numbers'
import { long_date } from '../../lib/words'
import type { PriceChart } from './price_steps'

export const dashes: readonly number[][] = [[], [8, 4], [2, 3], [12, 3, 2, 3], [5, 2, 1, 2]]
export const letter_of = (i: number) => 'abcdefghijklmnopqrstuvwxyz'[i % 26] ?? '?'
const day_s = 86_400

/** `1 Oct`, with the year in its first month shown. */
function day_words(at_s: number): string {
  const [day = '', month = '', year = ''] = long_date(new Date(at_s * 1000).toISOString()).split(' ')
  return month === 'January' ? `${day} Jan ${year}` : `${day} ${month.slice(0, 3)}`
}

const ink_of = (element: Element, name: string) => getComputedStyle(element).getPropertyValue(name).trim()

export function draw_prices(target: HTMLElement, chart: PriceChart, width_px: number): uPlot {
  const ink = ink_of(target, '--ink')
  const soft = ink_of(target, '--soft')
  const hair = ink_of(target, '--hair')
  const font = `13px ${ink_of(target, '--face')}`
  const stepped = uPlot.paths.stepped?.({ align: 1 })
  const first = chart.days_s[0] ?? 0
  const last = chart.days_s.at(-1) ?? first
  const room = Math.max(day_s, (last - first) * 0.04)

  const letters = (plot: uPlot) => {
    const { ctx } = plot
    const ratio = uPlot.pxRatio
    const ends = chart.lines.map(({ steps }) => {
      const at = steps.findLastIndex((step) => step !== null)
      return { x: plot.valToPos(chart.days_s[at] ?? first, 'x', true), y: plot.valToPos(steps[at] ?? 0, 'y', true) }
    })
    const { top, height } = plot.bbox
    const places = spread_out(ends.map(({ y }) => y), 14 * ratio, top, top + height)
    ctx.save()
    ctx.font = `600 ${13 * ratio}px ${ink_of(target, '--face')}`
    ctx.fillStyle = ink
    ctx.strokeStyle = hair
    ctx.lineWidth = ratio
    ctx.textBaseline = 'middle'
    const edge = plot.bbox.left + plot.bbox.width
    for (const [i, { x, y }] of ends.entries()) {
      ctx.beginPath()
      ctx.moveTo(x + 5 * ratio, y)
      ctx.lineTo(edge + 2 * ratio, places[i] ?? y)
      ctx.stroke()
      ctx.fillText(letter_of(i), edge + 6 * ratio, places[i] ?? y)
    }
    ctx.restore()
  }

  const options: uPlot.Options = {
    width: width_px,
    height: 220,
    padding: [12, 20, 0, 0],
    legend: { show: false },
    cursor: { show: false },
    tzDate: (at_s) => uPlot.tzDate(new Date(at_s * 1000), 'Etc/UTC'),
    scales: {
      x: { time: true, range: () => [first - room, last + room] },
      y: {
        range: (_plot, low, high) => {
          const more = Math.max((high - low) * 0.1, high * 0.02, 0.5)
          return [Math.max(0, low - more), high + more]
        }
      }
    },
    axes: [
      {
        stroke: soft, font, size: 30, gap: 4, space: 62, grid: { show: false }, ticks: { stroke: ink, width: 1, size: 5 },
        border: { show: true, stroke: ink, width: 1 },
        incrs: [1, 2, 7, 14, 28, 91, 182, 365, 730].map((days) => days * day_s), values: (_plot, splits) => splits.map(day_words)
      },
      {
        stroke: soft, font, size: (_plot, values) => 14 + 7.4 * Math.max(2, ...(values ?? []).map((text) => text.length)), gap: 5,
        grid: { stroke: hair, width: 0.7 }, ticks: { show: false }, border: { show: true, stroke: ink, width: 1 },
        values: (_plot, splits) => splits.map((value) => readable(value, 6))
      }
    ],
    series: [
      {},
      ...chart.lines.map(({ name, seen }, i): uPlot.Series => ({
        label: name, stroke: ink, width: 1.6, dash: dashes[i % dashes.length] ?? [],
        ...(stepped ? { paths: stepped } : {}),
        points: { show: true, size: 6, width: 1.4, stroke: ink, fill: ink, filter: () => seen.flatMap((is, at) => (is ? [at] : [])) }
      }))
    ],
    hooks: { draw: [letters] }
  }
  return new uPlot(options, [chart.days_s, ...chart.lines.map(({ steps }) => steps)], target)
}
