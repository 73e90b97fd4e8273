// Whether the browser can draw the model at all: asked before three.js is fetched.
export function has_webgl(): boolean {
  try {
    const context = document.createElement('canvas').getContext('webgl2')
    context?.getExtension('WEBGL_lose_context')?.loseContext()
    return context !== null
  } catch {
    return false
  }
}

/** The shortest way from angle to angle, in degrees. */
export function turned_by(from_deg: number, to_deg: number): number {
  return ((((to_deg - from_deg) % 360) + 540) % 360) - 180
}
