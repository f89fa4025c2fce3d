// What must not be lost: a closed tab, a killed browser, no network, another window, and the way back to the program.
import { join } from 'node:path';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { Hand, browser, check, folder, holds, kNight, kPhone, made, madeSingle, profile, run, same, served } from './harness.mjs';
import { Night, childFile, kNumbers } from './night.mjs';

async function toTheWait(hand) {
  await hand.taps('Low glucose', 'Wakes and talks', 'Nothing');
  await hand.enters('62');
  await hand.taps('Finger-prick meter');
  await hand.taps(await hand.page.locator('main > .main').textContent());
  await hand.sees('Time left');
}
// The process of the browser that this check started with this profile.
function browserOf(place) {
  for (const id of readdirSync('/proc')) {
    if (!/^\d+$/.test(id)) continue;
    let words = '';
    try { words = readFileSync(`/proc/${id}/cmdline`, 'utf8'); } catch { continue; }
    if (words.includes('--user-data-dir=' + place) && !words.includes('--type=')) return Number(id);
  }
  return 0;
}
const untilOf = (hand) => hand.page.locator('.clock .until').nth(1).textContent();

check('a_killed_browser_resumes_at_the_right_step_and_deadline', async () => {
  const server = await served(made());
  const place = folder();
  let context = await profile(place);
  let hand = await Hand.at(context, server.address);
  await toTheWait(hand);
  const until = await untilOf(hand), lines = await hand.kept();
  const main = browserOf(place);
  holds(main > 0, 'the browser is found');
  process.kill(main, 'SIGKILL');
  await context.close().catch(() => {});
  context = await profile(place);
  try {
    hand = await Hand.at(context, server.address, '2026-03-01T02:15:00-05:00');
    await hand.sees('Going on from 02:10. Nothing is lost.');
    same(await untilOf(hand), until, 'the deadline');
    same((await hand.kept()).join('\n'), lines.join('\n'), 'the lines');
    await hand.sees('The alarm cannot sound yet.');
    await hand.picture('resumed-en');
  } finally {
    await context.close();
    await server.stop();
  }
});

check('a_page_reloads_and_goes_on_with_no_network', async () => {
  const server = await served(made());
  const chrome = await browser();
  const context = await chrome.newContext(kPhone);
  const hand = await Hand.at(context, server.address);
  await hand.until(() => hand.page.evaluate(async () => (await navigator.serviceWorker.ready).active !== null && (await caches.keys()).length === 1), 'the page kept by the phone');
  await hand.until(() => hand.page.evaluate(async () => { const cache = await caches.open((await caches.keys())[0]); return (await cache.keys()).length >= 12; }), 'every file kept');
  await toTheWait(hand);
  const until = await untilOf(hand);
  await server.stop();
  await context.setOffline(true);
  await hand.page.reload();
  await hand.sees('Going on from 02:10. Nothing is lost.');
  same(await untilOf(hand), until, 'the deadline');
  await hand.waits(16);
  await hand.enters('84');
  await hand.sees('You said: 84 mg/dL');
  same(hand.faults.join('; '), '', 'faults');
  await chrome.close();
});

check('a_page_asks_nothing_of_anybody_once_it_is_loaded', async () => {
  const server = await served(made());
  const chrome = await browser();
  const context = await chrome.newContext(kPhone);
  const asked = [];
  context.on('request', (request) => asked.push(request.url()));
  const hand = await Hand.at(context, server.address);
  await hand.until(() => hand.page.evaluate(async () => { const names = await caches.keys(); if (names.length !== 1) return false; return (await (await caches.open(names[0])).keys()).length >= 12; }), 'every file kept');
  // The browser looks for the icon of its tab when it has time for it; that is a part of loading.
  for (const end = Date.now() + 5000; Date.now() < end && !asked.includes(server.address + 'icon.svg');) await hand.rests();
  const loaded = server.asked.length;
  asked.length = 0;
  await toTheWait(hand);
  await hand.taps('More', 'About this page', 'Back', 'Back to the step', 'Call', 'Back');
  // A browser may look at the icon of its tab again; what the page keeps answers it, and the server hears nothing.
  same(asked.filter((address) => address !== server.address + 'icon.svg').join(' '), '', 'requests');
  same(server.asked.slice(loaded).join(' '), '', 'requests at the server');
  await chrome.close();
  await server.stop();
});

check('a_single_file_opens_from_a_disk_and_keeps_the_night', async () => {
  const place = folder();
  const address = pathToFileURL(madeSingle()).href;
  let context = await profile(place);
  let hand = await Hand.at(context, address);
  const asked = [];
  context.on('request', (request) => { if (!request.url().startsWith('file:')) asked.push(request.url()); });
  await toTheWait(hand);
  const until = await untilOf(hand);
  same(hand.faults.join('; '), '', 'faults');
  await context.close();
  context = await profile(place);
  hand = await Hand.at(context, address, '2026-03-01T02:15:00-05:00');
  await hand.sees('Going on from 02:10.');
  same(await untilOf(hand), until, 'the deadline');
  same(asked.join(' '), '', 'requests');
  await context.close();
});

check('a_saved_night_goes_on_in_the_program', async () => {
  const child = childFile({ contacts: kNumbers });
  const server = await served(made(['--child', child]));
  const chrome = await browser();
  const context = await chrome.newContext({ ...kPhone, acceptDownloads: true });
  const hand = await Hand.at(context, server.address);
  await toTheWait(hand);
  const lines = await hand.kept();
  const until = (await untilOf(hand)).slice(6, 11);
  await hand.taps('More');
  const file = await hand.saves();
  const home = folder();
  const journal = join(home, 'journal.db');
  const first = run(['import', file, '--journal', journal], '', home);
  same(first.status, 0, 'import: ' + first.err);
  holds(first.out.includes(`${lines.length} events are in the journal. To go on: rushlight walk`), first.out);
  same(run(['import', file, '--journal', journal], '', home).out.includes('in the journal already'), true, 'a second time');
  const record = run(['record', '--text', '--child', child, '--journal', journal], '', home);
  holds(record.status === 0 && record.out.includes('62 mg/dL') && record.out.includes('02:10'), 'the record for the clinic: ' + record.out + record.err);
  const at = '2026-03-01T02:16:00-05:00';
  const gone = run(['walk', '--json', '--child', child, '--journal', journal], JSON.stringify({ at, tick: true }) + '\n', home);
  const view = JSON.parse(gone.out.trim());
  same(view.saved, true, 'saved');
  same(view.wait.until.slice(11, 16), until, 'the deadline in the program');
  same(run(['import', file, '--journal', journal], '', home).status, 1, 'a night that went on here');
  // Further on the phone, in the other journal: only the new lines.
  await hand.taps('Back to the step');
  await hand.waits(16);
  await hand.enters('84');
  await hand.taps('More');
  const later = await hand.saves();
  const other = join(folder(), 'journal.db');
  same(run(['import', file, '--journal', other], '', home).status, 0, 'the first part');
  same(run(['import', later, '--journal', other], '', home).status, 0, 'the rest');
  const damaged = join(folder(), 'damaged.night');
  const bytes = readFileSync(file);
  for (const cut of [0, 1, 20, 400, bytes.length - 1]) {
    writeFileSync(damaged, bytes.subarray(0, cut));
    const refused = run(['import', damaged, '--journal', join(folder(), 'journal.db')], '', home);
    holds(refused.status === 1 && refused.err.includes('error:'), `cut at ${cut}: ${refused.status} ${refused.err}`);
  }
  await chrome.close();
  await server.stop();
}, { program: true });

check('a_second_window_never_writes_over_the_first', async () => {
  const server = await served(made());
  const chrome = await browser();
  const context = await chrome.newContext(kPhone);
  const one = await Hand.at(context, server.address);
  await one.taps('Low glucose', 'Wakes and talks');
  const two = new Hand(await context.newPage());
  await two.page.clock.install({ time: new Date('2026-03-01T02:11:00-05:00') });
  await two.page.goto(server.address);
  await two.sees('Going on from');
  await two.page.clock.pauseAt(new Date('2026-03-01T02:11:20-05:00'));
  await two.taps('Nothing');
  await two.enters('62');
  const lines = await two.kept();
  await one.taps('Sugar');
  await one.sees('Another window went on with this.');
  same((await one.kept()).join('\n'), lines.join('\n'), 'the lines');
  await chrome.close();
  await server.stop();
});

check('an_old_open_episode_is_asked_about_before_it_goes_on', async () => {
  const server = await served(made());
  const chrome = await browser();
  const context = await chrome.newContext(kPhone);
  let hand = await Hand.at(context, server.address);
  await toTheWait(hand);
  await hand.page.close();
  hand = await Hand.at(context, server.address, '2026-03-01T09:00:00-05:00');
  await hand.sees('is still open, from 2026-03-01 02:10.');
  await hand.picture('old-en');
  await hand.taps('Start a new one');
  await hand.sees('What is it about?');
  await chrome.close();
  await server.stop();
});

check('a_night_is_led_on_where_nothing_can_be_saved', async () => {
  const server = await served(made());
  const chrome = await browser();
  const context = await chrome.newContext(kPhone);
  await context.addInitScript(() => { Object.defineProperty(window, 'indexedDB', { get: () => { throw new Error('blocked'); } }); });
  const hand = await Hand.at(context, server.address);
  await hand.taps('Low glucose');
  await hand.sees('NOT BEING SAVED.');
  await hand.picture('not-saved-en');
  await hand.taps('Wakes and talks', 'Nothing');
  await hand.enters('52');
  await hand.sees('Meter or sensor?');
  await chrome.close();
  await server.stop();
});
