// A browser, a web server that knows nothing of the page, and a person's hand: what the checks of this folder are written with.
import { createServer } from 'node:http';
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { tmpdir } from 'node:os';
import { chromium } from 'playwright-core';

export const program = process.env.RUSHLIGHT_PROGRAM;
export const pictures = process.env.RUSHLIGHT_PICTURES || ''; // a folder for screenshots; none are made without it
export const kNight = '2026-03-01T02:10:00-05:00';

const folders = [];
export function folder() {
  const made = mkdtempSync(join(tmpdir(), 'rushlight-page-'));
  folders.push(made);
  return made;
}
process.on('exit', () => folders.forEach((each) => rmSync(each, { recursive: true, force: true, maxRetries: 3 })));

// Runs the program in a home of its own.
export function run(words, input = '', home = folder()) {
  const done = spawnSync(program, words, { input, env: { HOME: home, PATH: process.env.PATH, TZ: 'America/New_York' }, encoding: 'utf8', maxBuffer: 1 << 28 });
  return { status: done.status, out: done.stdout, err: done.stderr };
}

// The invented child on the day for which its file is written: the nights of these tests are of that day.
export const kInvented = ['--child', join(process.env.RUSHLIGHT_SOURCE, 'protocols', 'demo-child.json')];

// A page made by the program: its folder.
export function made(words = kInvented) {
  const out = join(folder(), 'page');
  const done = run(['page', '--out', out, ...words]);
  if (done.status !== 0) throw new Error('the page was not made: ' + done.err);
  return out;
}
export function madeSingle(words = kInvented) {
  const out = join(folder(), 'page.html');
  const done = run(['page', '--single', out, ...words]);
  if (done.status !== 0) throw new Error('the page was not made: ' + done.err);
  return out;
}

const kTypes = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.svg': 'image/svg+xml', '.png': 'image/png', '.webmanifest': 'application/manifest+json', '.json': 'application/json', '.xml': 'application/xml' };

// Any static web server: files of a folder, nothing else. `asked` lists what was asked for.
export async function served(root) {
  const asked = [];
  const server = createServer((request, response) => {
    const path = new URL(request.url, 'http://x').pathname;
    asked.push(path);
    const file = join(root, path === '/' ? 'index.html' : path);
    if (!file.startsWith(root) || !existsSync(file)) { response.writeHead(404); response.end(); return; }
    response.writeHead(200, { 'content-type': kTypes[extname(file)] || 'application/octet-stream' });
    response.end(readFileSync(file));
  });
  await new Promise((yes) => server.listen(0, '127.0.0.1', yes));
  const stop = () => new Promise((yes) => { server.closeAllConnections(); server.close(yes); });
  return { address: `http://127.0.0.1:${server.address().port}/`, asked, stop };
}

const kArguments = ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--autoplay-policy=user-gesture-required'];
export const executablePath = process.env.RUSHLIGHT_CHROMIUM || '/usr/bin/chromium';

// One process for all checks, since a start takes seconds; what a check opened in it is its own and goes with its `close`.
let launched = null;
export async function browser() {
  launched = launched || chromium.launch({ executablePath, args: kArguments });
  const process = await launched;
  const contexts = [];
  return {
    async newContext(options) { contexts.push(await process.newContext(options)); return contexts[contexts.length - 1]; },
    async close() { for (const context of contexts) await context.close(); }
  };
}
export async function noBrowser() { if (launched) await (await launched).close(); }

export const kPhone = { viewport: { width: 360, height: 740 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true, timezoneId: 'America/New_York', locale: 'en-US' };

// A profile that outlives its browser: for killing it.
export async function profile(place, more = {}) {
  return chromium.launchPersistentContext(place, { executablePath, args: kArguments, ...kPhone, ...more });
}

// One person with one phone.
export class Hand {
  constructor(page) {
    this.page = page;
    this.faults = [];
    page.on('pageerror', (error) => this.faults.push('error: ' + error.message));
    page.on('console', (message) => { if (message.type() === 'error' || message.text().includes('Content Security Policy')) this.faults.push('console: ' + message.text()); });
    page.on('dialog', (dialog) => { this.faults.push('dialog: ' + dialog.message()); dialog.dismiss(); });
  }
  static async at(context, address, time = kNight) {
    const page = context.pages().length === 1 && context.pages()[0].url() === 'about:blank' ? context.pages()[0] : await context.newPage();
    const hand = new Hand(page);
    if (time) await page.clock.install({ time: new Date(time) });
    await page.goto(address);
    // The clock stops only when something stands there: it leaps ten seconds, and a page that starts would think it had waited so long.
    const stands = () => page.evaluate(() => document.querySelector('main h1') !== null);
    for (const end = Date.now() + 8000; Date.now() < end && !await stands();) await new Promise((yes) => setTimeout(yes, 25));
    if (time) await page.clock.pauseAt(new Date(new Date(time).getTime() + 10000));
    return hand;
  }

  async text() { return this.page.evaluate(() => document.body.innerText); }
  async headline() { return this.page.evaluate(() => { const title = document.querySelector('main h1'); return title ? title.textContent : ''; }); }
  async urgency() { return this.page.evaluate(() => { const lamp = document.querySelector('.lamp'); return lamp ? lamp.dataset.urgency : ''; }); }

  // Until it is so; a real clock, since the page's own stands still.
  async until(is, what) {
    const end = Date.now() + 15000;
    for (;;) {
      if (await is()) return;
      if (Date.now() > end) throw new Error('waited in vain for ' + what + '; the page says:\n' + await this.text());
      await new Promise((yes) => setTimeout(yes, 25));
    }
  }
  async sees(text) { await this.until(async () => (await this.text()).includes(text), `"${text}"`); return this; }
  async seesNot(text) { await this.until(async () => !(await this.text()).includes(text), `no "${text}"`); return this; }

  async button(name) {
    const exact = this.page.getByRole('button', { name, exact: true });
    if (await exact.count() > 0) return exact.first();
    return this.page.getByRole('button', { name }).first();
  }
  // Time goes on a second, as it does between two touches of a hand.
  async taps(...names) {
    for (const name of names) {
      await this.until(async () => (await (await this.button(name)).count()) > 0, `a button "${name}"`);
      await this.page.clock.runFor(1000);
      await (await this.button(name)).click();
      await this.rests();
    }
    return this;
  }
  async types(number) {
    await this.until(async () => (await this.page.locator('.pad').count()) > 0, 'a pad for ' + number);
    await this.page.clock.runFor(1000);
    const language = await this.page.evaluate(() => document.documentElement.lang);
    const keys = language === 'es' ? number.replace('.', ',') : number;
    for (const key of keys) await this.page.locator('.pad .grid').getByRole('button', { name: key, exact: true }).click();
    return this;
  }
  async enters(number, end) {
    await this.types(number);
    const ends = this.page.locator('.pad .ends button');
    await (end ? ends.filter({ hasText: end }) : ends).first().click();
    await this.rests();
    return this;
  }
  // Until what was touched is kept and drawn.
  async rests() {
    await this.page.evaluate(() => new Promise((yes) => { const channel = new MessageChannel(); channel.port1.onmessage = () => yes(); channel.port2.postMessage(0); }));
    let before = '';
    for (let same = 0; same < 3;) {
      await new Promise((yes) => setTimeout(yes, 20));
      const now = await this.page.evaluate(() => ['#main', '#bar'].map((part) => document.querySelector(part).outerHTML).join('')); // not the scripts of a single file
      same = now === before ? same + 1 : 0;
      before = now;
    }
  }
  async waits(minutes) {
    await this.page.clock.fastForward(minutes * 60000);
    await this.page.clock.runFor(1000);
    await this.rests();
    return this;
  }
  async picture(name) { if (pictures) await this.page.screenshot({ path: join(pictures, name + '.png'), fullPage: true }); return this; }

  // The lines that the browser keeps, of the latest episode.
  async kept() {
    return this.page.evaluate(async () => {
      const done = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
      const store = await done(indexedDB.open('rushlight', 1));
      const episodes = await done(store.transaction('episode').objectStore('episode').getAll());
      const events = await done(store.transaction('event').objectStore('event').getAll());
      store.close();
      const last = episodes[episodes.length - 1];
      return last ? events.filter((event) => event.episode === last.id).map((event) => event.line) : [];
    });
  }
  async saves(name = 'Save this night as a file') {
    const download = this.page.waitForEvent('download');
    await this.page.clock.runFor(1000);
    await (await this.button(name)).click();
    const file = join(folder(), 'saved.night');
    await (await download).saveAs(file);
    return file;
  }
}

// ---------- running the checks ----------

const checks = [];
// `program`: it tries the program too, and not its page alone. With sanitizers, which see nothing of a browser, the others are left out.
export function check(name, does, { program = false } = {}) { checks.push({ name, does, leftOut: Boolean(process.env.RUSHLIGHT_PROGRAM_ALONE) && !program }); }
export function same(is, wanted, what = '') { if (is !== wanted) throw new Error(`${what}: is ${JSON.stringify(is)}, not ${JSON.stringify(wanted)}`); }
export function holds(is, what) { if (!is) throw new Error(what); }

// Every check by itself, in order; what they came to in the form in which all tests of this tree note it.
export async function runAll(only) {
  const wanted = checks.filter((each) => !only || each.name.includes(only));
  const escape = (text) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/"/g, '&quot;');
  let failed = 0;
  const cases = [];
  for (const each of wanted) {
    if (each.leftOut) { cases.push(`<testcase name="${each.name}"><skipped/></testcase>`); continue; }
    const begun = Date.now();
    let fault = '';
    try { await each.does(); } catch (error) { fault = String(error.stack || error); }
    if (fault) ++failed;
    console.log(`${fault ? 'FAILED' : 'passed'}  ${each.name}  (${((Date.now() - begun) / 1000).toFixed(1)} s)${fault ? '\n' + fault : ''}`);
    cases.push(`<testcase name="${each.name}">${fault ? `<failure message="${escape(fault.slice(0, 300))}"/>` : ''}</testcase>`);
  }
  await noBrowser();
  if (process.env.RUSHLIGHT_RAN) writeFileSync(process.env.RUSHLIGHT_RAN, `<testsuite name="page">\n${cases.join('\n')}\n</testsuite>\n`);
  const tried = wanted.filter((each) => !each.leftOut).length;
  console.log(`${tried - failed} passed, ${failed} failed, ${wanted.length - tried} left out`);
  return failed === 0 && tried > 0 ? 0 : 1;
}
