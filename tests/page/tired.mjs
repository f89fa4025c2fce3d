// What a tired hand gets wrong, and what a small screen, a silent phone or the Back key must not take away.
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { Hand, browser, check, folder, holds, kPhone, made, run, same, served } from './harness.mjs';
import { kSick } from './walks.mjs';
import { Night, childFile, kNumbers } from './night.mjs';

async function onPhone(more, does, child = { contacts: kNumbers }) {
  const file = childFile(child);
  const server = await served(made(['--child', file]));
  const chrome = await browser();
  try {
    const context = await chrome.newContext({ ...kPhone, ...more, acceptDownloads: true });
    if (more.noSound) await context.addInitScript(() => { delete window.AudioContext; delete window.webkitAudioContext; });
    const hand = await Hand.at(context, server.address);
    await does(hand, file, context, server);
    same(hand.faults.join('; '), '', 'faults of the page');
  } finally {
    await chrome.close();
    await server.stop();
  }
}
const toThePad = (hand) => hand.taps('Low glucose', 'Wakes and talks', 'Nothing');
async function toTheDeeds(hand) { await toThePad(hand); await hand.enters('52'); await hand.taps('Finger-prick meter'); }
async function toTheWait(hand) {
  await toTheDeeds(hand);
  await hand.taps(await hand.page.locator('main > .main').textContent());
  await hand.sees('Time left');
}
const told = async (hand, word) => (await hand.kept()).filter((line) => line.includes(word));

// What of an element is seen: not beyond the screen, not behind the bar.
const inView = (hand, selector) => hand.page.evaluate((selector) => {
  const bar = document.querySelector('#bar');
  const end = getComputedStyle(bar).position === 'sticky' ? bar.getBoundingClientRect().top : innerHeight;
  return [...document.querySelectorAll(selector)].filter((each) => { const box = each.getBoundingClientRect(); return box.top < -1 || box.bottom > end + 1; }).map((each) => each.textContent);
}, selector);
async function seesWhole(hand, selector, what) {
  holds(await hand.page.locator(selector).count() > 0, 'it is there: ' + what);
  same((await inView(hand, selector)).join(', '), '', 'out of sight: ' + what);
}

for (const [unit, slip, whole, taken, other] of [['mg/dL', '5', 'Type the whole number, as 50 or 105.', '50', 'mmol/L'], ['mmol/L', '52', 'Type it with its point, as 5.2 or 10.5.', '5.2', 'mg/dL']]) {
  check(`a_slip_on_a_pad_in_${unit.replace('/', '_')}_asks_for_the_number_before_the_other_unit`, async () => {
    await onPhone({}, async (hand) => {
      await toThePad(hand);
      await hand.enters(slip);
      await hand.sees(`${slip} ${unit} cannot be right. ${whole} Only if the meter itself says ${other}: tap Other unit.`);
      await hand.picture('slip-' + unit.replace('/', '_'));
      await hand.enters(taken);
      await hand.sees(`You said: ${taken} ${unit}`);
    }, { unit });
  });
}

check('a_reading_in_the_other_unit_is_typed_twice_on_the_page', async () => {
  await onPhone({}, async (hand) => {
    await toThePad(hand);
    await hand.taps('Other unit: mmol/L');
    await hand.enters('5');
    await hand.sees('5 mmol/L is 90 mg/dL.');
    await hand.sees('Type 5 mmol/L again if the meter says mmol/L, or type what it shows.');
    await hand.picture('other-unit-twice');
    same((await told(hand, 'glucose')).length, 0, 'readings kept');
    await hand.taps('Other unit: mg/dL');
    await hand.enters('50');
    await hand.sees('You said: 50 mg/dL');
    await hand.taps('I mistyped', '50 mg/dL', 'Other unit: mmol/L');
    await hand.enters('5');
    await hand.enters('5');
    await hand.sees('Changed. Now it says: 5 mmol/L');
  });
});

check('the_number_in_the_other_unit_is_asked_for_twice_in_spanish', async () => {
  await onPhone({}, async (hand) => {
    await hand.taps('Glucosa baja', 'Despierta y habla', 'Nada');
    await hand.enters('5');
    await hand.sees('Escriba el número entero, como 50 o 105. Solo si el medidor mismo dice mmol/L: toque Otra unidad.');
    await hand.taps('Otra unidad: mmol/L');
    await hand.enters('5');
    await hand.sees('5 mmol/L son 90 mg/dL.');
  }, { language: 'es' });
});

for (const [width, height] of [[360, 740], [360, 616], [320, 568]]) {
  check(`what_records_a_deed_is_in_view_at_${width}_by_${height}`, async () => {
    await onPhone({ viewport: { width, height } }, async (hand) => {
      await toTheDeeds(hand);
      await seesWhole(hand, 'main > .main', 'the sugar is given');
      await hand.picture(`give-${height}`);
      const order = await hand.page.evaluate(() => [...document.querySelectorAll('main > *')].map((each) => each.matches('.main') ? 'main' : each.querySelector('.deed') ? 'deeds' : 'other').join(' '));
      holds(order.includes('deeds main'), 'right below the deeds: ' + order);
      await hand.taps('Something got worse', 'Will not wake');
      await seesWhole(hand, 'main > .main', 'the call is made');
      await hand.picture(`worse-${height}`);
      for (let at = 0; at < 4 && !(await hand.text()).includes('3 mg'); ++at) await hand.taps(await hand.page.locator('main > .main, main .stack button').first().textContent());
      await hand.sees('3 mg');
      await seesWhole(hand, 'main > .main', 'the rescue medicine is given');
      if (process.env.RUSHLIGHT_PICTURES) await hand.page.screenshot({ path: join(process.env.RUSHLIGHT_PICTURES, `rescue-${height}.png`) });
    });
  });
}

check('what_decides_an_answer_stands_between_the_question_and_its_answers', async () => {
  await onPhone({}, async (hand) => {
    await hand.taps('Low glucose');
    const seen = await hand.page.evaluate(() => {
      const help = [...document.querySelectorAll('main > p')].find((each) => each.textContent.includes('Asleep is not unconscious'));
      const answers = document.querySelector('main > .stack[role=group]');
      return { before: help ? help.compareDocumentPosition(answers) === Node.DOCUMENT_POSITION_FOLLOWING : null, soft: help ? help.className : '', color: help ? getComputedStyle(help).color === getComputedStyle(document.body).color : false };
    });
    same(JSON.stringify(seen), JSON.stringify({ before: true, soft: '', color: true }), 'the help');
    await hand.picture('help-en');
  });
});

for (const [width, height] of [[360, 616], [320, 568], [740, 360]]) {
  check(`all_digits_of_the_pad_are_in_view_at_${width}_by_${height}_also_while_it_rings`, async () => {
    await onPhone({ viewport: { width, height } }, async (hand) => {
      await toThePad(hand);
      await seesWhole(hand, '.pad output, .pad .board button', 'the digits');
      const shot = async (name) => { if (process.env.RUSHLIGHT_PICTURES) await hand.page.screenshot({ path: join(process.env.RUSHLIGHT_PICTURES, `${name}-${width}x${height}.png`) }); };
      await shot('pad');
      await hand.enters('62');
      await hand.taps('Finger-prick meter', /^Done/);
      await hand.waits(15.5);
      await hand.sees('ALARM');
      await seesWhole(hand, '.pad output, .pad .board button', 'the digits while it rings');
      await shot('ring');
      const small = await hand.page.locator('.pad button').evaluateAll((all) => all.filter((each) => each.getBoundingClientRect().height < 44).length);
      same(small, 0, 'keys too small for a thumb');
    });
  });
}

check('a_night_that_was_ended_for_good_looks_ended_and_is_imported_recorded_and_read_by_the_next', async () => {
  await onPhone({}, async (hand, child) => {
    await toTheWait(hand);
    await hand.taps('More', 'End this episode for good', /^Yes/);
    await hand.sees('Ended at 02:10. Save it for the clinic?');
    same(await hand.page.locator('.lamp').count(), 0, 'a lamp of an episode that is over');
    await hand.picture('ended-en');
    same((await told(hand, 'abandon')).join().replace(/.*"abandon"/, ''), ':{}}', 'the line');
    const file = await hand.saves('Save');
    await hand.sees('Saved. The program takes it up with');
    await seesWhole(hand, 'main .beside-it', 'that it is saved');
    const home = folder(), journal = join(home, 'journal.db');
    const taken = run(['import', file, '--journal', journal], '', home);
    same(taken.status, 0, 'import: ' + taken.err);
    const record = run(['record', '--text', '--child', child, '--journal', journal], '', home);
    holds(record.status === 0 && record.out.includes('Was closed by hand.'), 'the record: ' + record.out + record.err);
    await hand.taps('Close');
    await hand.sees('What is it about?');
    await hand.taps('Low glucose');
    holds(/"treated":\["2026-03-01T02:10/.test((await told(hand, '"past"')).join()), 'the sugar of the night before is known: ' + (await hand.kept()).join('\n'));
  });
}, { program: true });

check('a_night_kept_with_an_empty_reason_is_opened_again', async () => {
  await onPhone({}, async (hand, child, context, server) => {
    await toTheWait(hand);
    await hand.page.evaluate(async () => {
      const done = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
      const store = await done(indexedDB.open('rushlight', 1));
      const change = store.transaction(['event'], 'readwrite');
      const events = await done(change.objectStore('event').getAll());
      const last = events[events.length - 1];
      change.objectStore('event').add({ episode: last.episode, seq: last.seq + 1, line: '{"at":"2026-03-01T02:11:00-05:00","abandon":{"why":""}}' });
      await new Promise((yes) => { change.oncomplete = yes; });
      store.close();
    });
    await hand.page.goto(server.address);
    await hand.sees('Ended at 02:11.');
  });
});

check('a_low_of_yesterday_that_was_walked_with_the_page_before_is_known_to_the_new_one', async () => {
  const root = made(['--child', childFile({ weight: '21 kg' })]), newer = made(['--child', childFile({ weight: '22 kg' })]);
  const server = await served(root);
  const chrome = await browser();
  const context = await chrome.newContext({ ...kPhone, serviceWorkers: 'block' });
  const hand = await Hand.at(context, server.address);
  await toTheWait(hand);
  await hand.taps('More', 'End this episode for good', /^Yes/, 'Close');
  cpSync(newer, root, { recursive: true });
  await hand.page.goto(server.address);
  await hand.taps('Low glucose');
  const [past] = await told(hand, '"past"');
  holds(/"glucose":"52 mg\/dL"/.test(past) && /"treated":\["2026-03-01T02:10/.test(past), 'the past: ' + past);
  same(hand.faults.filter((fault) => !fault.includes('ServiceWorker') && !fault.includes('service-worker')).join(), '', 'faults');
  await chrome.close();
  await server.stop();
});

check('a_phone_without_sound_says_so_once_and_names_the_time_for_another_clock', async () => {
  await onPhone({ noSound: true }, async (hand) => {
    await hand.taps('Low glucose', 'The alarm cannot sound yet. Tap here to turn it on.');
    await hand.page.clock.runFor(1000);
    await hand.sees('This phone cannot sound the alarm.');
    await hand.seesNot('The alarm cannot sound yet.');
    await hand.taps('Wakes and talks', 'Nothing');
    await hand.enters('52');
    await hand.taps('Finger-prick meter', /^Done/);
    await hand.sees('This phone cannot sound the alarm. Set another clock for 02:25 now.');
    await hand.seesNot('The alarm rings here.');
    await hand.picture('silent-en');
    await hand.waits(15.5);
    same(await hand.page.locator('.alarm button').textContent(), 'I am here.', 'the button');
  });
});

check('back_closes_what_covers_the_step_and_leaves_only_when_it_is_pressed_twice', async () => {
  await onPhone({}, async (hand) => {
    const goBack = async () => { await hand.page.goBack({ waitUntil: 'commit' }).catch(() => {}); await hand.rests(); };
    await toTheWait(hand);
    await hand.taps('Call');
    await hand.sees('Telephone numbers');
    await goBack();
    await hand.sees('Time left');
    await hand.taps('More');
    await goBack();
    await hand.sees('Time left');
    await hand.seesNot('Back again to leave.');
    await goBack();
    await hand.sees('Leave? The alarm stops. Back again to leave.');
    await hand.picture('leave-en');
    await hand.taps('Why?', 'Back to the step');
    await hand.seesNot('Back again to leave.');
    await goBack();
    await hand.sees('Leave? The alarm stops.');
    await hand.page.goBack({ waitUntil: 'commit' }).catch(() => {});
    await hand.until(async () => hand.page.url() === 'about:blank', 'the page to be left');
  });
});

check('the_bell_stands_above_the_pictures_and_the_numbers_and_leaves_them_there', async () => {
  for (const [open, title, back] of [[['More', 'A child alone? Pictures'], 'Somebody is sick. You can help.', 'A grown-up is here'], [['Call'], 'Telephone numbers', 'Back']]) {
    await onPhone({}, async (hand) => {
      await toTheWait(hand);
      await hand.taps(...open);
      await hand.waits(15.5);
      await hand.sees('ALARM');
      same(await hand.headline(), title, 'what stood there');
      await seesWhole(hand, '.alarm', 'the bell');
      await hand.picture('bell-over-' + title.split(' ')[0]);
      await hand.taps('I am here. Stop the sound.');
      await hand.seesNot('ALARM');
      same(await hand.headline(), title, 'what stood there');
      await hand.taps(back);
      if (open[0] === 'More') await hand.taps('Back to the step');
      await hand.sees('Time is up. Check now.');
    });
  }
});

check('an_answer_of_hours_ago_keeps_its_clock_time', async () => {
  await onPhone({}, async (hand, child) => {
    await hand.taps('Ketones');
    const night = new Night(hand, { child, protocol: 'ketones', answers: { ...kSick, vomits: '0', glucose: '315', ketones: '1.6', 'last-rapid-insulin': '3 hours' } });
    for (let at = 0; at < 40 && (await told(hand, 'last-rapid-insulin')).length === 0; ++at) holds(await night.step(), 'it is asked');
    const [line] = await told(hand, 'last-rapid-insulin');
    const hour = Number(/T(\d\d):/.exec(line)[1]), minutes = /T\d\d:(\d\d)/.exec(line)[1];
    const then = `${String((hour + 21) % 24).padStart(2, '0')}:${minutes}`;
    await hand.sees(`3 h ago, at ${then}`);
    await hand.waits(60);
    await hand.taps('I mistyped');
    await hand.sees(`at ${then}`);
    await hand.seesNot('3 h ago');
  });
});

check('a_message_stands_beside_the_button_that_was_touched', async () => {
  await onPhone({ permissions: [] }, async (hand) => {
    await toTheWait(hand);
    await hand.taps('More');
    await hand.saves();
    await hand.sees('Saved. The program takes it up with');
    await seesWhole(hand, '.beside-it', 'that it is saved');
    await hand.picture('saved-en');
    await hand.taps('Try the alarm');
    await hand.page.clock.runFor(1000);
    await seesWhole(hand, '.beside-it', 'what is to be heard');
    same(await hand.page.locator('.beside-it').count(), 1, 'messages');
  });
});

check('only_the_emergency_number_is_red_and_a_number_is_never_broken', async () => {
  await onPhone({ viewport: { width: 320, height: 640 } }, async (hand) => {
    await hand.page.evaluate(() => { const sheet = new CSSStyleSheet(); sheet.replaceSync('html { font-size: 225%; }'); document.adoptedStyleSheets.push(sheet); });
    const look = () => hand.page.locator('a.tel').evaluateAll((all) => all.map((each) => ({ to: each.getAttribute('href'), color: getComputedStyle(each).backgroundColor, lines: Math.round(each.querySelector('.number').getBoundingClientRect().height / parseFloat(getComputedStyle(each.querySelector('.number')).lineHeight)), wide: each.querySelector('.number').getBoundingClientRect().right <= innerWidth })));
    await hand.taps('Call');
    const numbers = await look();
    same(numbers.filter((each) => each.color === 'rgb(109, 21, 13)').map((each) => each.to).join(), 'tel:5550999', 'red ones');
    same(numbers.length, 4, 'numbers');
    for (const each of numbers) holds(each.lines === 1 && each.wide, 'a whole number: ' + JSON.stringify(each));
    await hand.picture('numbers-large');
    await hand.taps('Back', 'Low glucose', 'Will not wake');
    for (const each of await look()) holds(each.lines === 1 && each.wide, 'a whole number: ' + JSON.stringify(each));
    await hand.picture('emergency-large');
  });
});
