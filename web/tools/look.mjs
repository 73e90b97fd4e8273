// Looks at the gallery as it would be served: built, and under the server's content security policy.
// Takes pictures of its parts in light and dark at 375 and 1280 pixels, asks axe, listens to the browser,
// and tries the pieces by hand (tools/hands.mjs). Usage: node tools/look.mjs FOLDER [part ...]; CHROMIUM
// names the browser.
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { createServer } from 'node:http'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, extname, join, normalize } from 'node:path'
import { fileURLToPath } from 'node:url'
import { chromium } from 'playwright-core'
import { build } from 'vite'
import { try_by_hand } from './hands.mjs'

const policy =
  "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; connect-src 'self'"
const kinds = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript', '.css': 'text/css', '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml'
}
const web = join(dirname(fileURLToPath(import.meta.url)), '..')
const [folder = '/tmp/rp-look', ...only] = process.argv.slice(2)
const parts = only.length > 0 ? only : ['claims', 'charts', 'case', 'shell']
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
mkdirSync(folder, { recursive: true })

const built = mkdtempSync(join(tmpdir(), 'rp-gallery-'))
await build({
  root: web, logLevel: 'error',
  build: { outDir: built, emptyOutDir: true, rollupOptions: { input: join(web, 'gallery.html') } }
})
const server = createServer((request, response) => {
  const path = normalize(new URL(request.url, 'http://x').pathname)
  try {
    const body = readFileSync(join(built, path))
    response.writeHead(200, {
      'content-type': kinds[extname(path)] ?? 'application/octet-stream', 'content-security-policy': policy
    })
    response.end(body)
  } catch {
    response.writeHead(404)
    response.end()
  }
})
await new Promise((ready) => server.listen(0, '127.0.0.1', ready))
const origin = `http://127.0.0.1:${server.address().port}`
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--use-gl=swiftshader', '--enable-unsafe-swiftshader']
})

let bad = 0
const found = (text) => {
  console.log(text)
  bad += 1
}
async function open(part, scheme, width) {
  const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme: scheme, reducedMotion: 'reduce' })
  page.on('console', (message) => {
    if (message.type() === 'error') found(`console: ${message.text()}`)
  })
  page.on('pageerror', (error) => found(`page error: ${error.message}`))
  await page.goto(`${origin}/gallery.html?part=${part}`)
  await page.waitForSelector('h1')
  await page.waitForTimeout(part === 'case' ? 2000 : 400)
  return page
}

for (const part of parts)
  for (const scheme of ['light', 'dark'])
    for (const width of [375, 1280]) {
      const page = await open(part, scheme, width)
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
      if (wide > 0) found(`${part} ${scheme} ${width}: ${wide} px too wide`)
      await page.screenshot({ path: join(folder, `${part}-${scheme}-${width}.png`), fullPage: true })
      await page.evaluate(axe)
      const { violations } = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }))
      for (const violation of violations) {
        found(`axe ${part} ${scheme} ${width}: ${violation.id}: ${violation.help}`)
        for (const node of violation.nodes.slice(0, 3)) console.log(`   ${node.html.slice(0, 160)}`)
      }
      await page.close()
    }
const tried = await try_by_hand(open, parts, found)
await browser.close()
server.close()
rmSync(built, { recursive: true })
console.log(`${tried} things tried by hand`)
console.log(bad === 0 ? `clean; pictures in ${folder}` : `${bad} findings; pictures in ${folder}`)
process.exit(bad === 0 ? 0 : 1)
