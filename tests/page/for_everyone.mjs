// Whoever uses it: with a keyboard, a screen reader, large letters, a small phone, own colours, without motion.
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { readdirSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { Hand, browser, check, holds, kPhone, made, madeSingle, same, served } from './harness.mjs';
import { fits, violations } from './looks.mjs';
import { childFile, kNumbers } from './night.mjs';

// Every kind of screen, one after the other; `looks` is asked on each.
async function throughAllScreens(hand, looks) {
  await looks('home');
  await hand.taps('A child alone? Pictures'); await looks('pictures'); await hand.taps('A grown-up is here');
  await hand.taps('About this page'); await looks('about'); await hand.taps('Back');
  await hand.taps('Low glucose'); await looks('first question');
  await hand.taps('More'); await looks('more'); await hand.taps('Back to the step');
  await hand.taps('Call'); await looks('numbers'); await hand.taps('Back');
  await hand.taps('Wakes and talks', 'Nothing'); await looks('pad');
  await hand.taps('Why?'); await looks('why'); await hand.taps('Back to the step');
  await hand.enters('52'); await hand.taps('Finger-prick meter'); await looks('actions');
  await hand.taps('Went wrong?'); await looks('went wrong'); await hand.taps('Back to the step');
  await hand.taps(await hand.page.locator('main > .main').textContent()); await looks('wait');
  await hand.taps('I mistyped'); await looks('mistyped'); await hand.taps('Back to the step');
  await hand.waits(15.5); await looks('time is up');
  await hand.taps('Something got worse'); await looks('worse');
  await hand.taps('Will not wake'); await looks('emergency');
  await hand.taps(await hand.page.locator('main > .main').textContent()); await looks('call');
  await hand.taps('They told me what to do'); await looks('what they said'); await hand.taps('Back to the step');
}

async function onPage(more, does) {
  const server = await served(made(['--child', childFile({ contacts: kNumbers })]));
  const chrome = await browser();
  try {
    const context = await chrome.newContext({ ...kPhone, ...more, bypassCSP: false });
    const hand = await Hand.at(context, server.address);
    await does(hand);
    same(hand.faults.join('; '), '', 'faults');
  } finally {
    await chrome.close();
    await server.stop();
  }
}

check('axe_finds_no_violation_on_any_kind_of_screen', async () => {
  let screens = 0;
  await onPage({}, async (hand) => throughAllScreens(hand, async (name) => {
    ++screens;
    same((await violations(hand)).join('; '), '', name);
  }));
  holds(screens >= 15, 'screens: ' + screens);
});

check('axe_finds_no_violation_in_spanish', async () => {
  await onPage({}, async (hand) => {
    await hand.taps('Español: cambiar el idioma');
    same(await hand.page.evaluate(() => document.documentElement.lang), 'es', 'the language');
    same((await violations(hand)).join('; '), '', 'home');
    await hand.taps('Glucosa baja');
    same((await violations(hand)).join('; '), '', 'first question');
  });
});

check('every_screen_fits_a_phone_of_320_px', async () => {
  await onPage({ viewport: { width: 320, height: 568 } }, async (hand) => throughAllScreens(hand, async (name) => {
    await fits(hand, name);
    await hand.picture('320-' + name.replace(/ /g, '-'));
  }));
});

check('every_screen_fits_with_letters_twice_as_large', async () => {
  await onPage({ viewport: { width: 320, height: 640 } }, async (hand) => {
    await hand.page.evaluate(() => { const sheet = new CSSStyleSheet(); sheet.replaceSync('html { font-size: 225%; }'); document.adoptedStyleSheets.push(sheet); });
    await throughAllScreens(hand, async (name) => {
      await fits(hand, name);
      await hand.picture('large-' + name.replace(/ /g, '-'));
    });
  });
});

check('every_screen_fits_at_a_zoom_of_200_percent', async () => {
  await onPage({ viewport: { width: 180, height: 370 }, deviceScaleFactor: 4 }, async (hand) => throughAllScreens(hand, async (name) => fits(hand, name, 40)));
});

check('a_low_is_walked_with_the_keyboard_alone', async () => {
  await onPage({ isMobile: false, hasTouch: false, viewport: { width: 1000, height: 800 } }, async (hand) => {
    const { page } = hand;
    const reaches = async (name) => {
      await page.clock.runFor(1000);
      for (let at = 0; at < 40; ++at) {
        await page.keyboard.press('Tab');
        const there = await page.evaluate(() => ({ text: document.activeElement.textContent, seen: getComputedStyle(document.activeElement).outlineStyle !== 'none' }));
        if (there.text !== name) continue;
        holds(there.seen, 'the focus is seen on ' + name);
        await page.keyboard.press('Enter');
        return hand.rests();
      }
      throw new Error('not reached by Tab: ' + name);
    };
    await reaches('Low glucose');
    same(await page.evaluate(() => document.activeElement.tagName), 'H1', 'the focus after a new screen');
    await reaches('Wakes and talks');
    await reaches('Nothing');
    await page.keyboard.type('52');
    await page.clock.runFor(1000);
    await page.keyboard.press('Enter');
    await hand.sees('You said: 52 mg/dL');
    await reaches('Finger-prick meter');
    await reaches(await page.locator('main > .main').textContent());
    await hand.sees('Time left');
    await hand.picture('desktop-wait-en');
    await reaches('Something got worse');
    await reaches('Will not wake');
    same(await hand.urgency(), 'emergency', 'the urgency');
  });
});

check('nothing_moves_for_whoever_wants_no_motion', async () => {
  await onPage({ reducedMotion: 'reduce' }, async (hand) => throughAllScreens(hand, async (name) => {
    same(await hand.page.evaluate(() => document.getAnimations().length), 0, name);
  }));
});

check('the_urgency_is_seen_in_forced_colours', async () => {
  await onPage({ forcedColors: 'active' }, async (hand) => {
    await hand.taps('Low glucose');
    const calm = await hand.page.evaluate(() => getComputedStyle(document.querySelector('.lamp')).borderTopWidth);
    await hand.taps('Will not wake');
    const grave = await hand.page.evaluate(() => ({ width: getComputedStyle(document.querySelector('.lamp')).borderTopWidth, strokes: document.querySelectorAll('.strokes i').length, word: document.querySelector('.word').textContent }));
    holds(parseFloat(grave.width) > 2 * parseFloat(calm), `the border: ${calm}, then ${grave.width}`);
    same(grave.strokes, 4, 'strokes');
    same(grave.word, 'Emergency', 'the word');
    await hand.picture('forced-colours-en');
  });
});

check('every_word_of_the_page_stands_in_both_languages_and_none_harms', async () => {
  const window = {};
  new Function('window', readFileSync(join(process.env.RUSHLIGHT_SOURCE, 'cli/page/words.js'), 'utf8'))(window);
  const { en, es } = window.rushlightWords;
  same(Object.keys(en).join(' '), Object.keys(es).join(' '), 'the keys');
  const place = join(process.env.RUSHLIGHT_SOURCE, 'cli/page');
  const scripts = readdirSync(place).filter((name) => name.endsWith('.js') && name !== 'words.js').map((name) => readFileSync(join(place, name), 'utf8')).join('');
  for (const key of Object.keys(en)) holds(new RegExp(`words(\\(\\))?\\.${key}\\b`).test(scripts), 'used by nobody: ' + key);
  for (const [key, words] of [...Object.entries(en), ...Object.entries(es)]) {
    for (const text of [].concat(words)) holds(text && !/\b(safe|safely|normal|proven|please|should|seguros?|por favor)\b/i.test(text), key + ': ' + text);
  }
  for (const key of Object.keys(en)) same((String(en[key]).match(/\{\d\}/g) || []).sort().join(), (String(es[key]).match(/\{\d\}/g) || []).sort().join(), 'the blanks of ' + key);
});

check('the_whole_page_is_smaller_than_700_kB_compressed', async () => {
  const root = made();
  // The set's own files lie in the folder for whoever looks there; no phone fetches them: the page carries their text itself.
  let bytes = 0, beside = 0;
  const files = readdirSync(root, { recursive: true }).map((name) => join(root, name)).filter((name) => statSync(name).isFile());
  for (const file of files) {
    const size = gzipSync(readFileSync(file), { level: 9 }).length;
    if (relative(root, file).startsWith('set')) beside += size; else bytes += size;
  }
  const fetched = readFileSync(join(root, 'service-worker.js'), 'utf8');
  holds(beside > 0 && !fetched.includes('.xml'), 'what a phone keeps holds no file of the set');
  const single = gzipSync(readFileSync(madeSingle()), { level: 9 }).length;
  console.log(`        what a phone fetches of the folder ${bytes} bytes compressed, the set's files beside it ${beside}, single file ${single}`);
  holds(bytes < 700000 && single < 700000, `folder ${bytes}, single ${single}`);
});
