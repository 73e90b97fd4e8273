// Looks at the gallery: pictures of its parts in light and dark at 375 and 1280 pixels, what axe finds,
// and every message of the browser. Usage: node tools/look.mjs FOLDER [part ...]; CHROMIUM names the browser.
import { mkdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { chromium } from 'playwright-core'
import { createServer } from 'vite'

const [folder = '/tmp/rp-look', ...only] = process.argv.slice(2)
const parts = only.length > 0 ? only : ['claims', 'charts', 'case', 'shell']
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
mkdirSync(folder, { recursive: true })

const server = await createServer({ server: { port: 0, hmr: false, open: false }, logLevel: 'error' })
await server.listen()
const origin = `http://localhost:${server.httpServer.address().port}`
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--use-gl=swiftshader', '--enable-unsafe-swiftshader']
})
let bad = 0
for (const scheme of ['light', 'dark'])
  for (const width of [375, 1280]) {
    const page = await browser.newPage({
      viewport: { width, height: 900 }, colorScheme: scheme, reducedMotion: 'reduce'
    })
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type()) && !/GPU stall|GL Driver/.test(message.text())) {
        console.log(`console ${message.type()}: ${message.text()}`)
        bad += message.type() === 'error' ? 1 : 0
      }
    })
    page.on('pageerror', (error) => {
      console.log(`page error: ${error.message}`)
      bad += 1
    })
    for (const part of parts) {
      await page.goto(`${origin}/gallery.html?part=${part}`)
      await page.waitForSelector('h1')
      await page.waitForTimeout(part === 'case' ? 2500 : 600)
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
      if (wide > 0) {
        console.log(`${part} ${scheme} ${width}: ${wide} px too wide`)
        bad += 1
      }
      await page.screenshot({ path: join(folder, `${part}-${scheme}-${width}.png`), fullPage: true })
      await page.evaluate(axe)
      const found = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }))
      for (const violation of found.violations) {
        bad += 1
        console.log(`axe ${part} ${scheme} ${width}: ${violation.id}: ${violation.help}`)
        for (const node of violation.nodes.slice(0, 3)) console.log(`   ${node.html.slice(0, 160)}`)
      }
    }
    await page.close()
  }
await browser.close()
await server.close()
console.log(bad === 0 ? `clean; pictures in ${folder}` : `${bad} findings; pictures in ${folder}`)
process.exit(bad === 0 ? 0 : 1)
