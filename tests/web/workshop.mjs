// What the tests of the pages share: the service on a copy of the demo, with a store of its own.
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '../..');

// In: RIGPROOF WEB WORK of the command line. A tool that is not there ends the test with 77, and words.
// Out: {program, work, playwright, axe_file, chromium}
export const tools = () => {
  const [program, web, work] = process.argv.slice(2).map((path) => resolve(path));
  const skip = (why) => { console.log(`skipped: ${why}`); process.exit(77); };
  if (!existsSync(join(web, 'node_modules/playwright-core'))) skip(`playwright-core is not in ${web}/node_modules (npm ci)`);
  const require = createRequire(join(web, 'package.json'));
  const chromium = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find((path) => existsSync(path));
  if (!chromium) skip('there is no chromium');
  if (spawnSync(chromium, ['--version']).status !== 0) skip(`${chromium} does not run`);
  rmSync(work, { recursive: true, force: true });
  mkdirSync(work, { recursive: true });
  return { program, work, chromium, playwright: require('playwright-core').chromium, axe_file: require.resolve('axe-core/axe.min.js') };
};

// The service: `start()`, `stop()` as Ctrl-C does, `kill()` as a power cut does; each can be followed by
// another start on the same store and port.
export class Workshop {
  // In: `add`: files or folders of demo/ to begin with; none is an empty store.
  constructor(program, folder, { add = [] } = {}) {
    Object.assign(this, { program, folder, add, port: 0, process: null });
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder, { recursive: true });
    cpSync(join(root, 'demo/catalog'), join(folder, 'catalog'), { recursive: true });
  }

  get origin() { return `http://127.0.0.1:${this.port}`; }
  get catalog() { return join(this.folder, 'catalog'); }

  async start() {
    const words = ['serve', '--catalog', this.catalog, '--store', `sqlite:${join(this.folder, 'store.db')}`,
      '--port', String(this.port), '--json', ...this.add.flatMap((path) => ['--add', join(root, path)])];
    const child = spawn(this.program, words, { stdio: ['ignore', 'pipe', 'pipe'] });
    this.process = child;
    let told = '';
    let said = '';
    child.stderr.on('data', (bytes) => { told += bytes; });
    const address = await new Promise((ready, fail) => {
      child.stdout.on('data', (bytes) => {
        said += bytes;
        if (said.includes('\n')) ready(JSON.parse(said).address);
      });
      child.once('error', fail);
      child.once('exit', (code) => fail(new Error(`the service ended with ${code}: ${told}`)));
    });
    this.port = Number(new URL(address).port);
  }

  async end(signal) {
    const child = this.process;
    this.process = null;
    if (!child || child.exitCode !== null) return;
    const ended = new Promise((done) => child.once('exit', done));
    child.kill(signal);
    await ended;
  }
  stop() { return this.end('SIGINT'); }
  kill() { return this.end('SIGKILL'); }

  // The API as another program would ask it. Out: {status, body}
  async api(path, { method = 'GET', body } = {}) {
    const answer = await fetch(`${this.origin}/api${path}`,
      { method, ...(body ? { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } } : {}) });
    return { status: answer.status, body: await answer.json() };
  }
  // Out: the id of the document of a name.
  async id_of(kind, name) {
    const { body } = await this.api(`/documents?kind=${kind}`);
    const found = body.documents.find((each) => each.name === name);
    if (!found) throw new Error(`no ${kind} is called ${name}: ${body.documents.map((each) => each.name).join(', ')}`);
    return found.id;
  }
  async text_of(id) { return (await this.api(`/documents/${id}`)).body.text; }
}
