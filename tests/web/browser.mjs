// Headless Chromium over the pipe of its DevTools protocol: no server, no port, no package.
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export class Browser {
  constructor(program) {
    this.profile = mkdtempSync(join(tmpdir(), 'rigproof-web-'));
    this.process = spawn(program, ['--headless=new', '--no-sandbox', '--disable-gpu', '--hide-scrollbars',
      '--disable-dev-shm-usage', '--no-first-run', '--remote-debugging-pipe', `--user-data-dir=${this.profile}`],
    { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'] });
    this.number = 0;
    this.waiting = new Map();
    this.events = [];
    let rest = '';
    this.process.stdio[4].setEncoding('utf8');
    this.process.stdio[4].on('data', (bytes) => {
      const messages = (rest + bytes).split('\0');
      rest = messages.pop();
      for (const message of messages) this.take(JSON.parse(message));
    });
    const gone = () => {
      for (const { reject } of this.waiting.values()) reject(new Error('the browser has ended'));
      this.waiting.clear();
    };
    this.process.on('error', gone);
    this.process.on('exit', gone);
  }

  take(message) {
    const asked = this.waiting.get(message.id);
    if (asked) {
      this.waiting.delete(message.id);
      message.error ? asked.reject(new Error(message.error.message)) : asked.resolve(message.result);
    } else {
      this.events = this.events.filter((event) => event.method !== message.method || !event.resolve());
    }
  }

  send(method, params = {}) {
    const id = ++this.number;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      this.process.stdio[3].write(`${JSON.stringify({ id, method, params, sessionId: this.session })}\0`);
    });
  }

  event(method) {
    return new Promise((resolve) => this.events.push({ method, resolve: () => (resolve(), true) }));
  }

  async open() {
    const { targetId } = await this.send('Target.createTarget', { url: 'about:blank' });
    this.session = (await this.send('Target.attachToTarget', { targetId, flatten: true })).sessionId;
    await this.send('Page.enable');
  }

  // The page at a width in pixels, in the light or the dark.
  async show(url, width, scheme, media = '') {
    await this.send('Emulation.setDeviceMetricsOverride', { width, height: 900, deviceScaleFactor: 1, mobile: false });
    await this.send('Emulation.setEmulatedMedia',
      { media, features: [{ name: 'prefers-color-scheme', value: scheme }] });
    const loaded = this.event('Page.loadEventFired');
    await this.send('Page.navigate', { url });
    await loaded;
  }

  async value(expression) {
    const { result, exceptionDetails } =
      await this.send('Runtime.evaluate', { expression, awaitPromise: true, returnByValue: true });
    if (exceptionDetails) throw new Error(exceptionDetails.exception?.description ?? exceptionDetails.text);
    return result.value;
  }

  async close() {
    const ended = new Promise((resolve) => this.process.once('exit', resolve));
    await this.send('Browser.close').catch(() => this.process.kill());
    await ended;
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}
