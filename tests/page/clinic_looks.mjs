// The clinic's page for whoever uses it, and how quick it is.
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { atTheDesk, clinicPage, ownSet } from './desk.mjs';
import { browser, check, holds, same } from './harness.mjs';
import { fits, violations } from './looks.mjs';

// As it opens; and changed, worked out, refused, with everything open.
async function inAllStates(nurse, looks) {
  await looks('as it opens');
  // Numbers of the protocol for a low alone, which is quick to compare.
  await nurse.types('very-low', '50');
  await nurse.types('most-unwell-rounds', '3');
  await nurse.types('snack-size', '500');
  await nurse.is('done');
  await nurse.page.evaluate(() => document.querySelectorAll('header details, #check details, #map details, .number:nth-of-type(-n+3) details, .turn.calmer').forEach((each) => { each.open = true; }));
  holds(await nurse.page.locator('.turn.calmer').count() > 0, 'something is calmer');
  await looks('changed, refused, open');
}

for (const language of ['en', 'es']) {
  check(`axe_finds_no_violation_on_the_clinics_page_in_${language}`, async () => {
    await atTheDesk(ownSet(), (nurse) => inAllStates(nurse, async (name) => same((await violations(nurse, false)).join('; '), '', name)), { words: ['--lang', language] });
  });
}

check('the_clinics_page_is_for_the_dark_too_and_for_own_colours_and_nothing_moves', async () => {
  for (const more of [{ colorScheme: 'dark' }, { forcedColors: 'active', reducedMotion: 'reduce' }]) {
    await atTheDesk(ownSet(), async (nurse) => {
      await nurse.types('most-unwell-rounds', '3');
      await nurse.is('done');
      await nurse.picture('clinic-' + Object.values(more)[0]);
      if (more.colorScheme) same((await violations(nurse, false)).join('; '), '', 'in the dark');
      const seen = await nurse.page.evaluate(() => getComputedStyle(document.querySelector('.turn.calmer')).borderTopStyle + ' ' + parseFloat(getComputedStyle(document.querySelector('.turn.calmer')).borderTopWidth));
      same(seen, 'solid 4', 'what is calmer has the heavy border in any colours');
      const still = await nurse.page.evaluate(() => document.getAnimations().length);
      same(still, 0, 'nothing moves');
    }, { more });
  }
});

check('the_clinics_page_fits_320_px_and_letters_twice_as_large', async () => {
  for (const [name, more, large] of [['320 px', { viewport: { width: 320, height: 640 } }, false], ['letters twice as large', { viewport: { width: 360, height: 740 } }, true],
    ['a zoom of 200 percent', { viewport: { width: 180, height: 370 }, deviceScaleFactor: 2 }, false]]) {
    await atTheDesk(ownSet(), async (nurse) => {
      if (large) await nurse.page.evaluate(() => { const sheet = new CSSStyleSheet(); sheet.replaceSync('html { font-size: 200%; }'); document.adoptedStyleSheets.push(sheet); });
      await inAllStates(nurse, async (state) => {
        await fits(nurse, name + ', ' + state, 24);
        const bar = await nurse.page.evaluate(() => { const box = document.querySelector('.tools'); return getComputedStyle(box).position === 'sticky' ? box.getBoundingClientRect().height / innerHeight : 0; });
        holds(bar < 0.4, name + ': the bar takes ' + bar);
        await nurse.picture('clinic-' + name.replace(/ /g, '-') + '-' + state.replace(/ /g, '-'));
      });
    }, { more });
  }
});

check('a_number_is_changed_looked_at_and_put_back_with_the_keyboard_alone', async () => {
  await atTheDesk(ownSet(), async (nurse) => {
    const { page } = nurse;
    const reaches = async (is) => {
      for (let at = 0; at < 60; ++at) {
        await page.keyboard.press('Tab');
        const there = await page.evaluate(() => ({ text: document.activeElement.getAttribute('aria-label') || document.activeElement.textContent, field: document.activeElement.dataset.field || '', seen: getComputedStyle(document.activeElement).outlineStyle !== 'none' }));
        if (!is(there)) continue;
        holds(there.seen, 'the focus is seen on ' + there.text);
        return;
      }
      throw new Error('not reached by Tab');
    };
    await page.locator('h1').focus();
    await reaches((there) => there.text === 'How the numbers get into the set');
    await page.keyboard.press('Enter');
    await nurse.sees('rushlight thresholds my-clinic --from FILE.csv');
    await reaches((there) => there.field === 'low');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('65');
    await nurse.found();
    await reaches((there) => there.text === 'Put back: Treat as low below');
    await page.keyboard.press('Enter');
    await nurse.is('done');
    same(await nurse.field('low').inputValue(), '70', 'put back');
    same(await page.evaluate(() => document.activeElement.dataset.field), 'low', 'the focus is in its field');
    holds((await nurse.status()).startsWith('No number is changed.'), await nurse.status());
  });
});

check('a_number_is_found_by_a_word', async () => {
  await atTheDesk(ownSet(), async (nurse) => {
    await nurse.page.getByLabel('Find a number').fill('sugar');
    const shown = await nurse.page.locator('.number:visible').count();
    holds(shown > 0 && shown < 40, 'shown: ' + shown);
    await nurse.sees(`${shown} of `);
  });
});

// Printed, not judged: the machine may be busy. A worker is not slowed with its page, so the slow processor is the engine's own script in the page.
check('the_times_of_the_clinics_page_are_printed', async () => {
  const file = clinicPage(ownSet());
  const html = readFileSync(file, 'utf8');
  console.log(`        the clinic's single file: ${html.length} bytes, ${gzipSync(html, { level: 9 }).length} compressed (gzip -9)`);
  await atTheDesk(ownSet(), async (nurse) => {
    const times = await nurse.page.evaluate(async () => {
      const field = document.querySelector('input[data-field="low"]');
      const begun = performance.now();
      field.value = '65';
      field.dispatchEvent(new Event('input'));
      const until = async (is) => { while (!is()) await new Promise((yes) => setTimeout(yes, 1)); return Math.round(performance.now() - begun); };
      const found = await until(() => document.body.dataset.state === 'found' || document.body.dataset.state === 'done');
      return { found, first: await until(() => document.querySelector('.turn')) };
    });
    console.log(`        from a key to the findings ${times.found} ms, to the changes of the first protocol ${times.first} ms`);
    holds(times.found > 0, 'times');
  });
  const data = html.match(/window\.rushlightClinic = ([^]*?);\n<\/script>/)[1], script = JSON.parse(html.match(/window\.rushlightClinicEngine = ([^]*?);\n<\/script>/)[1]);
  const chrome = await browser();
  const context = await chrome.newContext();
  const page = await context.newPage();
  await page.goto('about:blank');
  const client = await context.newCDPSession(page);
  await client.send('Emulation.setCPUThrottlingRate', { rate: 6 });
  await page.addScriptTag({ content: 'window.data = ' + data + ';' });
  await page.addScriptTag({ content: script });
  const slow = await page.evaluate(async () => {
    // The worker's own script stands behind the engine and has put its ear on this window.
    const answers = [];
    window.postMessage = (answer) => answers.push(answer);
    const ask = async (does, what) => {
      const begun = performance.now();
      window.onmessage({ data: { number: 0, does, what } });
      while (answers.length === 0) await new Promise((yes) => setTimeout(yes, 1));
      answers.pop();
      return Math.round(performance.now() - begun);
    };
    const times = { open: await ask('open', { drafts: window.data.drafts, files: window.data.files }) };
    times.plan = await ask('ask', { do: 'plan', language: 'en', fields: [{ field: 'low', parts: ['65', null] }] });
    times.check = await ask('ask', { do: 'check' });
    times.low = await ask('ask', { do: 'compare', protocol: 'low' });
    return times;
  });
  console.log(`        processor slowed 6 times: opened in ${slow.open} ms, a key worked out in ${slow.plan} ms, checked in ${slow.check} ms, the protocol for a low compared in ${slow.low} ms`);
  await chrome.close();
});
