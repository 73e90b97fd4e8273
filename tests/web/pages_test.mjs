// pages_test.mjs RIGPROOF TOOLS WORK: the demo's sheets in a real browser. axe-core finds nothing, in
// the light and in the dark, narrow and wide, with everything opened; nothing scrolls sideways; print
// shows what is folded. Exit 77: a tool is not there, and which.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Browser } from './browser.mjs';

const [program, tools, work] = process.argv.slice(2);
const skip = (why) => { console.log(`skipped: ${why}`); process.exit(77); };
const axeFile = join(tools, 'node_modules/axe-core/axe.min.js');
if (!existsSync(axeFile)) skip(`axe-core is not in ${tools} (tools/packages.sh: fetch_web_tools)`);
const chromium = ['chromium', 'chromium-browser'].find((name) => spawnSync(name, ['--version']).status === 0);
if (!chromium) skip('there is no chromium');
const axe = readFileSync(axeFile, 'utf8');

const widths = [375, 820, 1280, 1920];
const audited = [375, 1920];
const faults = [];
const fault = (text) => { faults.push(text); console.log(text); };

rmSync(work, { recursive: true, force: true });
mkdirSync(work, { recursive: true });
// In: a name and the program's words. A plan or sheet ends with 0, or 1 or 5 with its judgement.
const sheet = (name, words) => {
  const folder = join(work, name);
  const ran = spawnSync(program, words.map((word) => (word === '@' ? folder : word)), { encoding: 'utf8' });
  const file = join(folder, 'sheet.html');
  if (!existsSync(file)) throw new Error(`${name}: no sheet: ${ran.stderr}`);
  return { name, url: pathToFileURL(resolve(file)).href };
};
const pages = [
  sheet('planned', ['plan', 'demo/briefs/quiet-living-room.toml', '--catalog', 'demo/catalog', '--sheet', '@']),
  sheet('failing', ['sheet', 'demo/builds/friday-shelf.toml', '--catalog', 'demo/catalog', '-o', '@']),
];

const violations = async (browser) => JSON.parse(await browser.value(`${axe};
  axe.run(document, { resultTypes: ['violations'] }).then((found) => JSON.stringify(found.violations.map((one) =>
    ({ id: one.id, help: one.help, nodes: one.nodes.map((node) => node.html.slice(0, 160) + ' ' + node.failureSummary) }))))`));
const openAll = "for (const one of document.querySelectorAll('details')) one.open = true; true";
const sideways = `(() => { const wide = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= wide) return '';
  const out = [...document.querySelectorAll('body *')].find((one) => one.getBoundingClientRect().right > wide + 0.5
    && getComputedStyle(one).position !== 'absolute');
  return document.documentElement.scrollWidth + ' px, first ' + (out ? out.outerHTML.slice(0, 120) : '?'); })()`;

const look = async (browser, page, width, scheme) => {
  const where = `${page.name}, ${width} px, ${scheme}`;
  await browser.show(page.url, width, scheme);
  await browser.value(openAll);
  const over = await browser.value(sideways);
  if (over) fault(`${where}: scrolls sideways: ${over}`);
  if (!audited.includes(width)) return;
  for (const one of await violations(browser))
    for (const node of one.nodes.slice(0, 5)) fault(`${where}: ${one.id} (${one.help}) in ${one.nodes.length}: ${node}`);
};

// What is folded on the screen is on paper: every working near its limit has a height in print. Those of
// claims with plenty of room are left to the files, and the print says so.
const printed = async (browser, page) => {
  await browser.show(page.url, 700, 'light', 'print');  // A4 within its margins
  const over = await browser.value(sideways);
  if (over) fault(`${page.name}: print is wider than A4: ${over}`);
  const near = `[...document.querySelectorAll('details > .working')].filter((one) => !one.closest('.short'))`;
  const hidden = await browser.value(`${near}.filter((one) => one.getBoundingClientRect().height < 1).length`);
  const all = await browser.value(`${near}.length`);
  if (all === 0 || hidden > 0) fault(`${page.name}: ${hidden} of ${all} workings are not printed`);
};

// The whole test can fail: a page with known faults is found out.
const spoiled = async (browser) => {
  const file = join(work, 'spoiled.html');
  writeFileSync(file, '<!DOCTYPE html><html><head><title></title></head><body style="background:#fff">'
    + '<p style="color:#ccc;width:3000px">pale</p><img src="x.png"></body></html>');
  await browser.show(pathToFileURL(resolve(file)).href, 375, 'light');
  const found = (await violations(browser)).map((one) => one.id);
  for (const id of ['color-contrast', 'image-alt', 'html-has-lang', 'document-title'])
    if (!found.includes(id)) fault(`the spoiled page: ${id} was not found`);
  if (!(await browser.value(sideways))) fault('the spoiled page: it scrolls sideways, and was not found');
};

const browser = new Browser(chromium);
try {
  await browser.open();
  await spoiled(browser);
  for (const page of pages) {
    for (const scheme of ['light', 'dark']) for (const width of widths) await look(browser, page, width, scheme);
    await printed(browser, page);
  }
} finally {
  await browser.close();
}
console.log(faults.length === 0 ? `${pages.length} pages, nothing found` : `${faults.length} faults`);
process.exit(faults.length === 0 ? 0 : 1);
