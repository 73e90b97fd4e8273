// node load_test.mjs PROGRAM FOLDER: starts `rigproof serve` over the demo and asks it a million
// times with wrk. Prints the rate and the slowest hundredth of each route; the test is that the
// memory of the process does not grow: what one request leaves behind would be there a million times.
import { execFileSync, spawn } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { cpus } from 'node:os'

const [program, folder] = process.argv.slice(2)
const requests = Number(process.env.RP_LOAD_REQUESTS ?? 1_000_000)
const most_growth_kib = 8 * 1024 // ours: 8 bytes a request would be seen

try {
  execFileSync('wrk', ['--version'], { stdio: 'ignore' })
} catch (fault) {
  if (fault.code === 'ENOENT') {
    console.log('skipped: wrk is not here (apt-get install wrk)')
    process.exit(77)
  }
}

rmSync(folder, { recursive: true, force: true })
mkdirSync(folder, { recursive: true })
const service = spawn(
  program,
  ['serve', '--catalog', 'demo/catalog', '--store', `sqlite:${folder}/store.db`, '--add', 'demo/briefs']
    .concat(['--add', 'demo/builds', '--port', '0', '--json']),
  { stdio: ['ignore', 'pipe', 'inherit'] }
)
const ended = new Promise((resolve) => service.once('exit', (code) => resolve(code)))

async function address() {
  let said = ''
  for await (const bytes of service.stdout) {
    said += bytes
    if (said.includes('\n')) return JSON.parse(said).address
  }
  throw new Error('the service ended before it said where it is')
}

function memory_kib() {
  const line = readFileSync(`/proc/${service.pid}/status`, 'utf8').match(/VmRSS:\s+(\d+) kB/)
  return Number(line[1])
}

// wrk takes no rate: `delay` in its script makes each of its connections wait between requests.
function wrk(url, { seconds, connections = 15, rate = 0 }) {
  const script = `${folder}/wrk.lua`
  const pause_ms = rate > 0 ? Math.floor((1000 * connections) / rate) : 0
  writeFileSync(
    script,
    (pause_ms > 0 ? `function delay() return ${pause_ms} end\n` : '') +
      `function done(summary, latency, requests)
  local e = summary.errors
  io.write(string.format("RP %d %d %d %d %d\\n", summary.requests, summary.duration,
    latency:percentile(50), latency:percentile(99),
    e.connect + e.read + e.write + e.status + e.timeout))
end\n`
  )
  const out = execFileSync(
    'wrk',
    ['-t1', `-c${connections}`, `-d${seconds}s`, '--timeout', '10s', '-s', script, url],
    { encoding: 'utf8' }
  )
  const [count, us, p50_us, p99_us, errors] = out
    .match(/^RP (.*)$/m)[1]
    .split(' ')
    .map(Number)
  return { count, per_s: count / (us / 1e6), p50_ms: p50_us / 1000, p99_ms: p99_us / 1000, errors }
}

function print(what, { count, per_s, p50_ms, p99_ms, errors }) {
  console.log(
    `${what}: ${count} requests, ${per_s.toFixed(0)}/s, median ${p50_ms.toFixed(2)} ms, ` +
      `p99 ${p99_ms.toFixed(2)} ms, ${errors} errors`
  )
}

let failed = false
try {
  const base = (await address()).replace(/\/$/, '')
  console.log(`${cpus().length} x ${cpus()[0].model}, ${new Date().toISOString().slice(0, 10)}`)
  const briefs = await (await fetch(`${base}/api/documents?kind=brief`)).json()
  const routes = {
    'the workshop': '/api/workshop',
    'the list of briefs': '/api/documents?kind=brief',
    'one brief': `/api/documents/${briefs.documents[0].id}`,
    'names of processors': '/api/parts/cpu',
    'a price series': '/api/prices/cpu/orrvane-larch-14',
    'the start page': '/'
  }
  for (const [what, path] of Object.entries(routes))
    print(`${what}, 2000/s asked`, wrk(base + path, { seconds: 3, rate: 2000 }))

  const warm = wrk(`${base}/api/documents?kind=brief`, { seconds: 5 })
  print('as fast as it goes', warm)
  const before_kib = memory_kib()
  let count = 0
  let errors = 0
  const paths = Object.values(routes)
  for (let i = 0; count < requests; ++i) {
    const left = Math.max(1, Math.min(5, Math.ceil((requests - count) / warm.per_s)))
    const some = wrk(base + paths[i % paths.length], { seconds: left })
    count += some.count
    errors += some.errors
  }
  const growth_kib = memory_kib() - before_kib
  console.log(
    `memory: ${before_kib} KiB before, ${before_kib + growth_kib} KiB after ${count} requests; ` +
      `at most ${most_growth_kib} KiB more are allowed`
  )
  if (growth_kib > most_growth_kib) failed = true
  if (errors > 0) {
    console.log(`${errors} requests had no good answer`)
    failed = true
  }
} finally {
  const asked = Date.now()
  service.kill('SIGINT')
  const code = await ended
  console.log(`ended with code ${code} after ${Date.now() - asked} ms`)
  if (code !== 0) failed = true
}
process.exit(failed ? 1 : 0)
