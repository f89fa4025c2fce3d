// A night on the page beside the same night in the program: what is asked is looked up there, and both must say the same.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { folder, holds, run, same } from './harness.mjs';

export class Night {
  // `answers`: by the id of the question, one value or a list of them, the last of which stays.
  constructor(hand, { child, protocol, answers, language = 'en' }) {
    Object.assign(this, { hand, child, protocol, answers: structuredClone(answers), language });
    this.steps = [];
  }

  async now() {
    return this.hand.page.evaluate(() => {
      const date = new Date();
      const ahead = -date.getTimezoneOffset();
      const two = (number) => String(number).padStart(2, '0');
      return new Date(date.getTime() + ahead * 60000).toISOString().slice(0, 19) + (ahead < 0 ? '-' : '+') + two(Math.floor(Math.abs(ahead) / 60)) + ':' + two(Math.abs(ahead) % 60);
    });
  }

  // What the program says of the very lines that the browser keeps, at this moment.
  async view() {
    const lines = [...await this.hand.kept(), JSON.stringify({ at: await this.now(), tick: true })];
    const done = run(['walk', '--json', '--child', this.child, '--protocol', this.protocol], lines.join('\n') + '\n');
    const views = done.out.trim().split('\n').map((line) => JSON.parse(line));
    for (const view of views) holds(!view.error, 'the program refused a line of the page: ' + JSON.stringify(view.error));
    return views[views.length - 1];
  }

  answerTo(question) {
    const own = this.answers[question.id];
    holds(own !== undefined, 'no answer is written down for ' + question.id + ': ' + question.text);
    if (!Array.isArray(own)) return own;
    return own.length > 1 ? own.shift() : own[0];
  }

  async answer(question) {
    const value = this.answerTo(question);
    if (value === 'unknown') return this.hand.taps(this.language === 'es' ? 'No lo sé' : "I can't tell");
    const choice = (question.choices || []).find((each) => each.id === value || each.name === value);
    if (choice) return this.hand.taps(choice.text);
    const [number, end] = String(value).split(' ');
    if (/^(LO|HI)$/.test(number)) return this.hand.taps(number);
    return this.hand.enters(number, end);
  }

  // One touch further, whatever stands there. False at the end.
  async step() {
    const { hand } = this;
    const view = await this.view();
    this.steps.push(view.step);
    const screen = await hand.page.evaluate(() => ({
      urgency: document.querySelector('.lamp').dataset.urgency,
      text: document.querySelector('main').innerText,
      main: (document.querySelector('main > .main') || {}).textContent || '',
      pad: document.querySelector('main > .pad') !== null,
      left: document.querySelector('#left') !== null
    }));
    same(screen.urgency, view.urgency, 'the urgency at ' + view.step);
    const words = (text) => text.replace(/\s+/g, ' ');
    const shows = (text) => words(screen.text).includes(words(text));
    if (shows(this.language === 'es' ? '¿Cómo fue la llamada?' : 'How did the call go?')) {
      await hand.taps(this.language === 'es' ? 'Alguien contestó' : 'Someone answered');
      return true;
    }
    if (shows(this.language === 'es' ? '¿La clínica dio una dosis?' : 'Did the clinic give a dose?') && !screen.main) {
      await hand.taps(this.language === 'es' ? 'No, todavía no' : 'No, not yet');
      return true;
    }
    if (shows(this.language === 'es' ? '¿Cuánto entró?' : 'How much went in?')) {
      await hand.taps(this.language === 'es' ? 'Todo' : 'All of it');
      return true;
    }
    if (view.ended) return false;
    const asked = view.questions.find((question) => shows(question.text));
    if (asked) { await this.answer(asked); return true; }
    const reading = screen.pad && view.questions.find((question) => ['glucose', 'ketones'].includes(question.kind));
    if (reading) { await this.answer(reading); return true; }
    if (screen.main) {
      for (const action of view.do) {
        if (!action.outcome) holds(shows(action.text), 'the page tells: ' + action.text);
      }
      await hand.taps(screen.main);
      return true;
    }
    holds(screen.left, 'something is to be done at ' + view.step + ':\n' + screen.text);
    if (this.whileWaiting) await this.whileWaiting(view);
    await hand.waits((Date.parse(view.wait.until) - Date.parse(await this.now())) / 60000 + 0.1);
    return true;
  }
  async walk(most = 400) {
    for (let at = 0; at < most; ++at) if (!await this.step()) return;
    throw new Error('the night does not end; steps: ' + this.steps.slice(-20).join(' '));
  }
}

export function childFile(more = {}) {
  const demo = JSON.parse(readFileSync(join(process.env.RUSHLIGHT_SOURCE, 'protocols', 'demo-child.json'), 'utf8'));
  const path = join(folder(), 'child.json');
  writeFileSync(path, JSON.stringify({ ...demo, ...more }));
  return path;
}
export const kNumbers = { clinic: '555 0100', on_call: '555 0101', emergency: '555 0999', address: '12 Long Lane', second_adult: { name: 'Robin', number: '555 0102' } };
