// Makes the gallery's sample answers by asking the command line about the demo; trimmed, so that the
// repository stays small. Usage: RIGPROOF=build/test/bin/rigproof node tools/make_samples.mjs
import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const web = join(dirname(fileURLToPath(import.meta.url)), '..')
const root = join(web, '..')
const out = join(web, 'src', 'gallery', 'sample')
const tool = process.env.RIGPROOF ?? join(root, 'build', 'release', 'bin', 'rigproof')
mkdirSync(out, { recursive: true })

function ask(args) {
  try {
    return run(args)
  } catch (error) {
    if ([1, 3, 5].includes(error.status)) return error.stdout
    throw error
  }
}
const run = (args) =>
  execFileSync(tool, [...args, '--catalog', 'demo/catalog'], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1 << 28
  })
const json = (args) => JSON.parse(ask([...args, '--json']))
const save = (name, value) =>
  writeFileSync(join(out, `${name}.json`), `${JSON.stringify(value, null, 1)}\n`)

function scene_of(build) {
  const folder = mkdtempSync(join(tmpdir(), 'rp-scene-'))
  ask(['fit', `demo/builds/${build}.toml`, '-o', folder])
  return JSON.parse(readFileSync(join(folder, 'scene.json'), 'utf8'))
}

// Every verdict is kept, most of what holds is not; of a working at most six cells.
function some_claims(claims) {
  let holding = 0
  return claims
    .filter((claim) => claim.verdict !== 'holds' || holding++ < 12)
    .map((claim) => {
      if (!claim.working) return claim
      return { ...claim, working: { ...claim.working, cells: claim.working.cells.slice(0, 6) } }
    })
}

const plan = json(['plan', 'demo/briefs/quiet-living-room.toml', '--best', '2'])
plan.builds = plan.builds.map((build) => ({ ...build, claims: some_claims(build.claims) }))
save('plan', plan)
const frontier = json([
  'frontier', 'demo/briefs/competition-high-refresh.toml', '--from', '700', '--to', '2500'
])
save('frontier', frontier)
const air = json(['air', 'demo/builds/evening-chair.toml'])
save('air', { ...air, claims: some_claims(air.claims) })
const power = json(['power', 'demo/builds/evening-chair.toml'])
save('power', { ...power, claims: some_claims(power.claims) })
save('scene', scene_of('evening-chair'))
save('scene_fails', scene_of('trap-plug-at-the-panel'))
const sheet = mkdtempSync(join(tmpdir(), 'rp-sheet-'))
ask(['plan', 'demo/briefs/quiet-living-room.toml', '--sheet', sheet])
const physics = JSON.parse(readFileSync(join(sheet, 'physics.json'), 'utf8'))
save('physics', physics)
