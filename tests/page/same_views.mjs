// The engine of the browser and the engine of this machine, put to the same journals.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { Hand, browser, check, holds, kInvented, kPhone, made, same, served } from './harness.mjs';

const kJournals = 5000;

check('the_same_5000_random_journals_give_the_same_views_byte_for_byte_in_the_browser', async () => {
  const journals = execFileSync(process.env.RUSHLIGHT_JOURNALS, [String(kJournals)], { encoding: 'utf8', maxBuffer: 1 << 30 }).trim().split('\n').map((line) => JSON.parse(line));
  same(journals.length, kJournals, 'journals');
  const chrome = await browser();
  let lines = 0;
  for (const set of ['reference', 'harbour-lane']) {
    const server = await served(made([...kInvented, '--set', set]));
    const hand = await Hand.at(await chrome.newContext(kPhone), server.address, null);
    await hand.sees('What is it about?');
    await hand.page.evaluate(async () => {
      const made = await window.createEngine();
      const { open, call } = window.rushlightCalls(made);
      const opened = JSON.parse(open(window.rushlightData.model, window.rushlightData.child, '2026-03-01'));
      if (opened.error) throw new Error(opened.error.sentence);
      window.viewsOf = (journal) => {
        let views = '';
        journal.lines.forEach((line, place) => {
          views += call(JSON.stringify({ do: 'line', protocol: journal.protocol, line, first: place === 0 ? 'yes' : '' })) + '\n';
        });
        return views;
      };
      window.sumOf = async (journal) => {
        const hash = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(window.viewsOf(journal)));
        return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, '0')).join('');
      };
    });
    const own = journals.map((journal, place) => ({ ...journal, place })).filter((journal) => journal.set === set);
    for (let from = 0; from < own.length; from += 50) {
      const part = own.slice(from, from + 50);
      const sums = await hand.page.evaluate(async (journals) => Promise.all(journals.map((journal) => window.sumOf(journal))), part);
      for (let at = 0; at < part.length; ++at) {
        lines += part[at].lines.length;
        if (sums[at] === part[at].sum) continue;
        const here = execFileSync(process.env.RUSHLIGHT_JOURNALS, [String(kJournals), String(part[at].place)], { encoding: 'utf8', maxBuffer: 1 << 28 }).split('\n');
        const there = (await hand.page.evaluate((journal) => window.viewsOf(journal), part[at])).split('\n');
        const line = here.findIndex((view, which) => view !== there[which]);
        throw new Error(`journal ${part[at].place}, line ${line}: ${part[at].lines[line]}\nhere:  ${here[line]}\nthere: ${there[line]}`);
      }
    }
    await server.stop();
  }
  console.log(`        ${kJournals} journals, ${lines} lines`);
  holds(lines > 5 * kJournals, 'lines: ' + lines);
  await chrome.close();
});

check('a_sum_that_differs_would_be_seen', async () => {
  const [journal] = execFileSync(process.env.RUSHLIGHT_JOURNALS, ['1'], { encoding: 'utf8' }).trim().split('\n').map((line) => JSON.parse(line));
  const views = execFileSync(process.env.RUSHLIGHT_JOURNALS, ['1', '0'], { encoding: 'utf8' });
  const sum = (text) => createHash('sha256').update(text).digest('hex');
  same(sum(views), journal.sum, 'the sum');
  holds(sum(views.replace('protocol', 'Protocol')) !== journal.sum, 'one letter changes it');
});
