// The JSON of rigproof.scene/1. Made by tools/make_types.mjs: not to be edited.

import type { Box, Dimension, Gap } from './common'

/** A build in its case as boxes, gaps and dimensions */
export interface SceneJson {
  schema: "rigproof.scene/1"
  title: string
  /** The case outside, along x, y and z; 0: not stated. */
  size_mm: [number, number, number]
  /** What is farther from the side panel first. */
  boxes: Box[]
  /** Nearest to failing first. */
  gaps: Gap[]
  dimensions: Dimension[]
  /** What is not known and therefore drawn dashed. */
  notes: string[]
}
