// Sample answers of the demo, made by tools/make_samples.mjs.
import type { AirJson } from '../lib/json/air'
import type { Claim } from '../lib/json/common'
import type { FrontierJson } from '../lib/json/frontier'
import type { PhysicsJson } from '../lib/json/physics'
import type { PlanJson } from '../lib/json/plan'
import type { PowerJson } from '../lib/json/power'
import type { SceneJson } from '../lib/json/scene'
import air_json from './sample/air.json'
import frontier_json from './sample/frontier.json'
import physics_json from './sample/physics.json'
import plan_json from './sample/plan.json'
import power_json from './sample/power.json'
import scene_json from './sample/scene.json'
import scene_fails_json from './sample/scene_fails.json'

export const air = air_json as unknown as AirJson
export const frontier = frontier_json as unknown as FrontierJson
export const physics = physics_json as unknown as PhysicsJson
export const plan = plan_json as unknown as PlanJson
export const power = power_json as unknown as PowerJson
export const scene = scene_json as unknown as SceneJson
export const scene_fails = scene_fails_json as unknown as SceneJson

/** Marks that the demo does not have: measured, doubtful, both with invented numbers. */
export const drawn_claims: Claim[] = [
  {
    id: 'air.noise', grade: 'must', where: '', subjects: [], load: 'title', verdict: 'thin', basis: 'model',
    statement: 'One metre away it is quieter than 34 dB(A) while playing.', source: 'invented for the gallery',
    remedy: 'quieter fans', missing: [], value: { value: 33.5, low: 32, high: 34.9, unit: 'dB(A)' },
    limit: { relation: 'at_most', value: 34, unit: 'dB(A)' }, odds: 0.7, margin_frac: 0.0147,
    margin: { value: 0.5, low: -0.9, high: 2, unit: 'dB(A)' },
    measured: { value: 32.3, log: 'noise.csv', date: '2026-10-09', settled: 'confirmed' },
    swap: { kind: 'fan', out: 'loud-fan', in: 'quiet-fan', count: 2 }
  },
  {
    id: 'fit.card-length', grade: 'must', where: '', subjects: [], load: '', verdict: 'doubtful', basis: 'part data',
    statement: 'The card is short enough for the case.', source: 'invented for the gallery', remedy: 'a shorter card',
    missing: [], value: { value: 330, low: 322, high: 338, unit: 'mm' },
    limit: { relation: 'at_most', value: 325, unit: 'mm' }, odds: 0.16, margin_frac: -0.0154,
    margin: { value: -5, low: -13, high: 3, unit: 'mm' }
  }
]
