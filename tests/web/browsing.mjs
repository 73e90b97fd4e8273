// A browser for the tests of the pages: each page is listened to, and whatever it complains of or asks
// another place for is a fault. Waiting is for roles and words, never for a time.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Workshop, tools } from './workshop.mjs';

const patience_ms = 45_000;  // long on a machine that has other work to do

export class Trial {
  constructor(name) {
    this.name = name;
    this.faults = [];
    this.workshops = [];
    this.origins = new Map();
    Object.assign(this, tools());
    this.axe = readFileSync(this.axe_file, 'utf8');
  }

  fault(text) {
    this.faults.push(text);
    console.log(`FAULT ${text}`);
  }
  must(holds, text) {
    if (!holds) throw new Error(text);
  }
  same(got, wanted, what) {
    if (got !== wanted) throw new Error(`${what}: expected ${JSON.stringify(wanted)}, got ${JSON.stringify(got)}`);
  }

  // In: see Workshop. It is stopped at the end.
  async workshop(name, how = {}) {
    const made = new Workshop(this.program, join(this.work, name), how);
    this.workshops.push(made);
    await made.start();
    return made;
  }

  async open_browser() {
    this.browser = await this.playwright.launch({ executablePath: this.chromium, args: ['--no-sandbox', '--disable-gpu',
      '--use-gl=swiftshader', '--enable-unsafe-swiftshader', '--disable-background-networking', '--disable-component-update',
      '--disable-sync', '--no-first-run', '--disable-dev-shm-usage'] });
  }

  // A person's browser, with a memory of its own. In: `toured`: the tour was offered before.
  async person(workshop, { width = 1280, height = 900, scheme = 'light', toured = true, ...more } = {}) {
    const context = await this.browser.newContext({ viewport: { width, height }, colorScheme: scheme, baseURL: workshop.origin, ...more });
    context.setDefaultTimeout(patience_ms);
    this.origins.set(context, workshop.origin);
    // What the policy refused is told by the page itself.
    await context.addInitScript((was_toured) => {
      addEventListener('securitypolicyviolation', (event) =>
        console.error(`policy: ${event.violatedDirective} refused ${event.blockedURI} ${event.sample}`));
      if (was_toured && window === window.top && location.protocol === 'http:') localStorage.setItem('rigproof.toured', 'yes');
    }, toured);
    return context;
  }

  // A page that is listened to. `page.allow(pattern)` says which complaints are meant from now on.
  async page(context, path) {
    const page = await context.newPage();
    this.listen(page);
    if (path !== undefined) await page.goto(path);
    return page;
  }
  listen(page) {
    const allowed = [];
    page.allow = (pattern) => { allowed.push(pattern); };
    allowed.push(/GPU stall due to ReadPixels/);  // of a browser that draws without a graphics card, not of a page
    const complain = (text) => {
      if (!allowed.some((pattern) => pattern.test(text))) this.fault(`${this.doing ?? this.name}: ${page.url()}: ${text}`);
    };
    page.on('console', (message) => complain(`console ${message.type()}: ${message.text()} ${message.location().url ?? ''}`));
    page.on('pageerror', (error) => complain(`page error: ${error.stack ?? error.message}`));
    page.on('crash', () => complain('the page crashed'));
    page.on('dialog', (dialog) => { complain(`dialog: ${dialog.message()}`); void dialog.dismiss(); });
    page.on('requestfailed', (request) => {
      const why = request.failure()?.errorText ?? '';
      if (why !== 'net::ERR_ABORTED') complain(`request failed: ${request.url()}: ${why}`);  // aborted: the page left it
    });
    page.on('request', (request) => {
      const url = new URL(request.url());
      if (!['data:', 'blob:'].includes(url.protocol) && url.origin !== this.origins.get(page.context())) complain(`asks elsewhere: ${url.href}`);
    });
    return page;
  }

  // Out: what axe-core finds on the page, as lines.
  async violations(page) {
    await page.evaluate(`${this.axe}; true`);
    const found = await page.evaluate(async () => (await globalThis.axe.run(document, { resultTypes: ['violations'] })).violations.map((one) =>
      ({ id: one.id, help: one.help, nodes: one.nodes.map((node) => `${node.html.slice(0, 160)} ${node.failureSummary}`) })));
    return found.flatMap((one) => one.nodes.slice(0, 3).map((node) => `axe ${one.id} (${one.help}) in ${one.nodes.length}: ${node}`));
  }

  // Polls until the probe gives something true. Out: what it gave.
  async until(what, probe, within_ms = patience_ms) {
    const end = Date.now() + within_ms;
    for (;;) {
      const got = await probe();
      if (got) return got;
      if (Date.now() > end) throw new Error(`waited in vain for: ${what}`);
      await new Promise((go_on) => setTimeout(go_on, 25));
    }
  }

  // One thing a person does. A failure is told with a picture, and ends the trial's part.
  async step(doing, page, work) {
    this.doing = doing;
    const begun = Date.now();
    try {
      await work();
      console.log(`${String(Date.now() - begun).padStart(6)} ms  ${doing}`);
    } catch (error) {
      const picture = join(this.work, `fault-${this.faults.length + 1}.png`);
      await page?.screenshot({ path: picture, fullPage: true }).catch(() => undefined);
      this.fault(`${doing}: ${error.message.replace(/\u001b\[\d+m/g, '')}\n${(error.stack ?? '').split('\n').filter((line) => line.includes('_test.mjs:')).slice(0, 1).join('\n')}\n      at ${page?.url()}; picture: ${picture}`);
      throw Object.assign(error, { told: true });
    }
  }
  // Steps that hang together; another part goes on when one of them failed.
  async part(name, work) {
    console.log(`- ${name}`);
    try {
      await work();
    } catch (error) {
      if (!error.told) this.fault(`${name}: ${error.stack}`);
    }
  }

  // Opens the browser, runs, closes everything, and ends the program.
  async run(work) {
    try {
      await this.open_browser();
      await work();
    } catch (error) {
      this.fault(error.stack);
    } finally {
      await this.browser?.close();
      for (const workshop of this.workshops) await workshop.stop();
    }
    console.log(this.faults.length === 0 ? `${this.name}: nothing found` : `${this.name}: ${this.faults.length} faults`);
    process.exit(this.faults.length === 0 ? 0 : 1);
  }
}
