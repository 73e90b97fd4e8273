// The case as a model of lines: three.js is loaded only when this module is. What lies behind a part is
// drawn fine and dashed, as in the drawing; nothing is shaded. The scene's x, y, z are three's x, z, y.
import {
  AlwaysDepth, BoxGeometry, type BufferGeometry, Color, EdgesGeometry, Group, GreaterDepth, LessEqualDepth, Mesh,
  MeshBasicMaterial, OrthographicCamera, Scene, Vector3, WebGLRenderer
} from 'three'
import { LineMaterial } from 'three/addons/lines/LineMaterial.js'
import { LineSegments2 } from 'three/addons/lines/LineSegments2.js'
import { LineSegmentsGeometry } from 'three/addons/lines/LineSegmentsGeometry.js'
import type { Box } from '../lib/json/common'
import type { SceneJson } from '../lib/json/scene'
import { is_tight } from '../lib/words'
import { eye_of, gap_extent, gap_key, is_known, parts_of_gap, type Angle, type AxisName } from './view'

export interface Colors {
  ink: string
  soft: string
  tight: string
}
export interface LabelAt {
  text: string
  x_px: number
  y_px: number
  tight: boolean
}
export interface Model {
  set_scene(scene: SceneJson, chosen: string | null): void
  set_colors(colors: Colors): void
  /** Draws, and says where names stand. */
  draw(angle: Angle, zoom: number, width_px: number, height_px: number): LabelAt[]
  end(): void
}

type Extent = Record<AxisName, readonly [number, number]>
type Kind = 'seen' | 'behind' | 'unplaced' | 'room' | 'heavy' | 'heavy_unplaced' | 'gap' | 'gap_tight'

const gap_step_mm = 14

function box_geometry(extent: Extent): BufferGeometry {
  const size = (axis: AxisName) => Math.max(0.5, extent[axis][1] - extent[axis][0])
  const middle = (axis: AxisName) => (extent[axis][0] + extent[axis][1]) / 2
  return new BoxGeometry(size('x'), size('z'), size('y')).translate(middle('x'), middle('z'), middle('y'))
}
function edge_points(extent: Extent): number[] {
  const box = box_geometry(extent)
  const edges = new EdgesGeometry(box)
  const points = Array.from(edges.getAttribute('position').array)
  box.dispose()
  edges.dispose()
  return points
}
/** Lines under 45 degrees on the faces beside an axis: the hatch of a clearance along it. */
export function hatch_points(extent: Extent, along: AxisName, step_mm = gap_step_mm): number[] {
  const out: number[] = []
  const three_of: Readonly<Record<AxisName, number>> = { x: 0, z: 1, y: 2 }
  const faces: ReadonlyArray<[AxisName, AxisName, AxisName]> = [
    ['x', 'y', 'z'],
    ['y', 'x', 'z'],
    ['z', 'x', 'y']
  ]
  for (const [normal, u, v] of faces.filter(([normal]) => normal !== along))
    for (const level of extent[normal]) {
      const [u0, u1] = extent[u]
      const [v0, v1] = extent[v]
      for (let c = u0 + v0 + step_mm; c < u1 + v1; c += step_mm) {
        const from = Math.max(u0, c - v1)
        const to = Math.min(u1, c - v0)
        if (to - from < 0.2) continue
        for (const at of [from, to]) {
          const point: number[] = [0, 0, 0]
          point[three_of[normal]] = level
          point[three_of[u]] = at
          point[three_of[v]] = c - at
          out.push(...point)
        }
      }
    }
  return out
}

/** Throws when the browser has no WebGL. */
export function make_model(canvas: HTMLCanvasElement): Model {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true, preserveDrawingBuffer: true })
  const world = new Scene()
  const camera = new OrthographicCamera()
  let group = new Group()
  world.add(group)

  const line = (width_px: number, dash?: [number, number]) =>
    new LineMaterial({
      linewidth: width_px, depthTest: true, depthFunc: LessEqualDepth, dashed: dash !== undefined,
      ...(dash ? { dashSize: dash[0], gapSize: dash[1] } : {})
    })
  const materials: Record<Kind, LineMaterial> = {
    seen: line(1.8),
    behind: line(0.9, [9, 6]),
    unplaced: line(1.3, [12, 7]),
    room: line(0.9, [14, 5]),
    heavy: line(3.6),
    heavy_unplaced: line(3.2, [14, 8]),
    gap: line(1),
    gap_tight: line(1.2)
  }
  materials.behind.depthFunc = GreaterDepth
  for (const kind of ['gap', 'gap_tight'] as const) materials[kind].depthFunc = AlwaysDepth
  for (const kind of Object.keys(materials) as Kind[]) materials[kind].transparent = kind === 'behind'
  const faces = new MeshBasicMaterial({ colorWrite: false, polygonOffset: true, polygonOffsetFactor: 1.5, polygonOffsetUnits: 2 })

  const center = new Vector3()
  let radius_mm = 300
  let labels: Array<{ text: string; at: Vector3; tight: boolean }> = []

  function put_lines(points: number[], kind: Kind): void {
    if (points.length === 0) return
    const lines = new LineSegments2(new LineSegmentsGeometry().setPositions(points), materials[kind])
    lines.computeLineDistances()
    lines.renderOrder = kind === 'behind' ? 1 : 2
    group.add(lines)
  }
  function clear(): void {
    group.traverse((object) => {
      if (object instanceof Mesh) (object.geometry as BufferGeometry).dispose()
    })
    world.remove(group)
    group = new Group()
    world.add(group)
  }
  const middle_of = (extent: Extent) =>
    new Vector3((extent.x[0] + extent.x[1]) / 2, (extent.z[0] + extent.z[1]) / 2, (extent.y[0] + extent.y[1]) / 2)

  function set_scene(scene: SceneJson, chosen: string | null): void {
    clear()
    labels = []
    const gap = scene.gaps.find((each) => gap_key(each) === chosen) ?? scene.gaps.find((each) => is_tight(each.verdict))
    const parts: readonly number[] = gap ? parts_of_gap(scene, gap) : []
    const extent_of = (box: Box): Extent => box
    for (const [i, box] of scene.boxes.entries()) {
      const extent = extent_of(box)
      const known = is_known(box, ['x', 'y', 'z'])
      const body = box.use !== 'outline' && box.use !== 'bend'
      const points = edge_points(extent)
      if (body && known) {
        const solid = new Mesh(box_geometry(extent), faces)
        solid.renderOrder = 0
        group.add(solid)
      }
      const kind: Kind = box.use === 'bend' ? 'room' : known ? 'seen' : 'unplaced'
      const heavy = parts.includes(i) && box.use !== 'outline'
      put_lines(points, heavy ? (known ? 'heavy' : 'heavy_unplaced') : kind)
      put_lines(points, 'behind')
      if (heavy)
        labels.push({ text: box.name + (known ? '' : ' ?'), at: middle_of(extent), tight: false })
    }
    if (gap) {
      const extent = gap_extent(scene, gap)
      const tight = is_tight(gap.verdict)
      put_lines([...edge_points(extent), ...hatch_points(extent, gap.axis)], tight ? 'gap_tight' : 'gap')
      const size = Math.round(Math.abs(gap.margin_mm) * 10) / 10
      labels.push({ text: `${size} mm ${gap.margin_mm >= 0 ? 'left' : 'over'}`, at: middle_of(extent), tight })
    }
    const outline = scene.boxes.find((box) => box.use === 'outline') ?? scene.boxes[0]
    if (outline) {
      center.copy(middle_of(outline))
      const half = (axis: AxisName) => (outline[axis][1] - outline[axis][0]) / 2
      radius_mm = Math.max(10, Math.hypot(half('x'), half('y'), half('z')))
    }
  }

  function set_colors({ ink, soft, tight }: Colors): void {
    for (const kind of Object.keys(materials) as Kind[])
      materials[kind].color = new Color(kind === 'behind' ? soft : kind === 'gap_tight' ? tight : ink)
  }

  function draw(angle: Angle, zoom: number, width_px: number, height_px: number): LabelAt[] {
    renderer.setPixelRatio(Math.min(2, devicePixelRatio))
    renderer.setSize(width_px, height_px, false)
    const half_height = (radius_mm * 1.04) / zoom
    const half_width = (half_height * width_px) / height_px
    const fit = Math.max(1, (radius_mm * 1.04) / zoom / half_width)
    camera.left = -half_width * fit
    camera.right = half_width * fit
    camera.top = half_height * fit
    camera.bottom = -half_height * fit
    camera.near = 0
    camera.far = radius_mm * 8
    const eye = eye_of(angle)
    const turn = (angle.turn_deg * Math.PI) / 180
    const tilt = (angle.tilt_deg * Math.PI) / 180
    camera.position.set(eye.x, eye.z, eye.y).multiplyScalar(radius_mm * 4).add(center)
    camera.up.set(-Math.sin(turn) * Math.sin(tilt), Math.cos(tilt), -Math.cos(turn) * Math.sin(tilt))
    camera.lookAt(center)
    camera.updateProjectionMatrix()
    camera.updateMatrixWorld()
    for (const material of Object.values(materials)) material.resolution.set(width_px, height_px)
    renderer.render(world, camera)
    return labels.map(({ text, at, tight }) => {
      const point = at.clone().project(camera)
      return { text, tight, x_px: ((point.x + 1) / 2) * width_px, y_px: ((1 - point.y) / 2) * height_px }
    })
  }

  return {
    set_scene,
    set_colors,
    draw,
    end() {
      clear()
      for (const material of Object.values(materials)) material.dispose()
      faces.dispose()
      renderer.dispose()
      renderer.forceContextLoss()
    }
  }
}

