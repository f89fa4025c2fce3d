// A nurse at the clinic's page.
import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Hand, browser, folder, pictures, run } from './harness.mjs';

// A set of the clinic's own, to be changed and thrown away.
export function ownSet(name = 'my-clinic', from = 'reference') {
  const set = join(folder(), name);
  cpSync(join(process.env.RUSHLIGHT_SOURCE, 'protocols', from), set, { recursive: true });
  return set;
}
export function clinicPage(set, words = []) {
  const file = join(folder(), 'clinic.html');
  const done = run(['page', '--clinic', '--single', file, '--protocols', set, ...words]);
  if (done.status !== 0) throw new Error('the page was not made: ' + done.err);
  return file;
}

export class Nurse extends Hand {
  static async at(context, address) {
    const nurse = new Nurse(await context.newPage());
    await nurse.page.goto(address.startsWith('http') ? address : pathToFileURL(address).href);
    await nurse.is('done');
    return nurse;
  }
  // typed, found, done: how far the page is.
  async is(state) { await this.until(async () => (await this.page.evaluate(() => document.body.dataset.state)) === state, 'the state ' + state); return this; }
  field(name, part = 0) { return this.page.locator(`input[data-field="${name}"][data-part="${part}"]`); }
  async types(name, text, part = 0) { await this.field(name, part).fill(text); return this; }
  async found() {
    await this.until(async () => ['found', 'done'].includes(await this.page.evaluate(() => document.body.dataset.state)), 'the findings');
    return this;
  }
  async told(name) { return this.page.locator('.field', { has: this.field(name) }).locator('.told').innerText(); }
  async status() { return this.page.locator('#status').innerText(); }
  async saves() {
    const download = this.page.waitForEvent('download');
    await this.page.getByRole('button', { name: /^(Save the table|Guardar la tabla)$/ }).click();
    const file = join(folder(), 'numbers.csv');
    await (await download).saveAs(file);
    return file;
  }
  async picture(name) { if (pictures) await this.page.screenshot({ path: join(pictures, name + '.png') }); return this; }

  // Everything that the page says of what changes, as `rushlight compare` writes it, whatever the lines are.
  async changes() {
    return this.page.evaluate(() => Object.fromEntries(Array.from(document.querySelectorAll('#changes .protocol'), (protocol) => {
      const text = (within, what) => Array.from(within.querySelectorAll(what), (each) => each.textContent);
      const words = [protocol.dataset.protocol, ...text(protocol, '.numbers li'), ...text(protocol, '.common')];
      let number = 0;
      for (const turn of protocol.querySelectorAll('.turn')) {
        words.push(turn.querySelector('h4').textContent.replace(/ \(\d+\)$/, ''));
        for (const difference of turn.querySelectorAll('.difference')) {
          if (turn.classList.contains('first')) {
            words.push(`- ${text(difference, '.word')}: ${text(difference, 'li')} was ${text(difference, '.was')} now ${text(difference, '.now')}`);
            continue;
          }
          words.push(`${++number}. was ${text(difference, '.was')} now ${text(difference, '.now')}`);
          for (const place of difference.querySelectorAll('li')) words.push('- ' + place.textContent);
        }
      }
      return [protocol.dataset.protocol, words.concat(text(protocol, '.same')).join(' ').replace(/\s+/g, ' ')];
    })));
  }
  // The findings as `rushlight check` writes them.
  async findings() {
    return this.page.evaluate(() => Array.from(document.querySelectorAll('#check .finding'), (each) => {
      const text = (what) => (each.querySelector(what) ? each.querySelector(what).textContent : '');
      const severity = each.classList.contains('error') ? 'error' : 'warning';
      let words = `${text('.place')}: ${severity}: ${text('.sentence')}`;
      if (text('pre')) words += '\n' + text('pre');
      if (text('.because')) words += '\n  because  ' + text('.because');
      if (text('.try')) words += '\n  try      ' + text('.try');
      return words;
    }));
  }
}

// The same of the program.
export function compared(was, now) {
  const texts = {};
  const blocks = run(['compare', '--all', was, now]).out.split(/^(?=(?:low|ketones|illness)$)/m);
  for (const block of blocks) texts[block.split('\n')[0]] = block.replace(/What changes is shown, not whether[^]*$/, '').replace(/\s+/g, ' ').trim();
  return texts;
}
export function checked(set) {
  const text = run(['check', set]).out.split(set + '/').join('');
  return text.split(/^(?=[a-z]+\.xml:\d+:\d+: (?:error|warning): )/m).filter((each) => /^[a-z]+\.xml:\d+:\d+: /.test(each))
    .map((each) => each.split('\n').filter((line, at) => at === 0 || /^( *\d* \| |  because  |  try      )/.test(line)).join('\n'));
}

// Does something as a nurse with this set's page, opened from the disk.
export async function atTheDesk(set, does, { words = [], more = {}, faults = true } = {}) {
  const chrome = await browser();
  try {
    const context = await chrome.newContext({ viewport: { width: 1200, height: 900 }, locale: 'en-US', acceptDownloads: true, ...more });
    const asked = [];
    context.on('request', (request) => { if (!/^(file|blob):/.test(request.url())) asked.push(request.url()); });
    const nurse = await Nurse.at(context, clinicPage(set, words));
    await does(nurse);
    if (faults && nurse.faults.length > 0) throw new Error('faults: ' + nurse.faults.join('; '));
    if (asked.length > 0) throw new Error('requests: ' + asked.join(' '));
  } finally {
    await chrome.close();
  }
}

export function bytesOf(set) { return ['examples', 'illness', 'ketones', 'low', 'safety'].map((name) => readFileSync(join(set, name + '.xml'), 'utf8')).join('\u0000'); }
