// Nights as a parent walks them, with a thumb, on a phone of 360 by 740.
import { join } from 'node:path';
import { Hand, browser, check, folder, holds, kNight, kPhone, made, madeSingle, profile, run, same, served } from './harness.mjs';
import { Night, childFile, kNumbers } from './night.mjs';

const kWords = { en: { goOn: 'Going on from', left: 'Time left' }, es: { goOn: 'Sigue desde', left: 'Faltan' } };

async function onPhone(root, does, more = {}) {
  const server = await served(root);
  const chrome = await browser();
  try {
    const context = await chrome.newContext({ ...kPhone, ...more, acceptDownloads: true });
    const hand = await Hand.at(context, server.address);
    await does(hand, server, context);
    same(hand.faults.join('; '), '', 'faults of the page');
  } finally {
    await chrome.close();
    await server.stop();
  }
}

const kLow = { awake: 'yes', 'already-given': 'no', 'reading-from': 'meter', swallow: 'yes', glucose: ['52', '61', '84', '118'], 'meal-soon': 'no', 'ate-recently': 'no', exercised: 'no', symptoms: 'no', 'last-rapid-insulin': '5 h' };

for (const language of ['en', 'es']) {
  check(`a_full_low_with_two_treatments_is_walked_on_the_page_in_${language}`, async () => {
    const child = childFile({ language, contacts: kNumbers });
    await onPhone(made(['--child', child]), async (hand) => {
      await hand.picture(`home-${language}`);
      await hand.taps(language === 'en' ? 'Low glucose' : 'Glucosa baja');
      await hand.picture(`first-question-${language}`);
      const night = new Night(hand, { child, protocol: 'low', language, answers: kLow });
      let waits = 0;
      night.whileWaiting = async () => {
        await hand.sees(kWords[language].left);
        await hand.picture(`wait-${++waits}-${language}`);
      };
      const step = night.step.bind(night);
      let at = 0;
      night.step = async () => { const more = await step(); await hand.picture(`low-${String(++at).padStart(2, '0')}-${language}`); return more; };
      await night.walk();
      const given = (await night.view()).given.filter((each) => each.outcome === 'given' && /7 g/.test(each.text));
      same(given.length, 2, 'treatments');
      holds(waits >= 2, 'two waits');
    });
  });
}

const kEmergency = { en: ['Low glucose', 'Will not wake', 'Nobody answered', 'Someone answered', 'EMERGENCY'], es: ['Glucosa baja', 'No se despierta', 'Nadie contestó', 'Alguien contestó', 'EMERGENCIA'] };
for (const language of ['en', 'es']) {
  check(`an_emergency_is_the_first_thing_on_the_page_with_a_number_to_tap_in_${language}`, async () => {
    const child = childFile({ language, contacts: kNumbers });
    const [low, willNotWake, nobody, someone, word] = kEmergency[language];
    await onPhone(made(['--child', child]), async (hand) => {
      await hand.taps(low, willNotWake);
      same(await hand.urgency(), 'emergency', 'the urgency');
      same((await hand.text()).trim().split('\n')[0].toUpperCase(), word, 'the first words');
      same(await hand.page.locator('main a.tel').first().getAttribute('href'), 'tel:5550999', 'the number');
      holds(!(await hand.text()).includes('7 g'), 'nothing by mouth');
      await hand.picture(`emergency-${language}`);
      await hand.taps(await hand.page.locator('main > .main').textContent());
      await hand.picture(`emergency-call-${language}`);
      await hand.taps(nobody);
      same(await hand.urgency(), 'emergency', 'the urgency stays');
      const night = new Night(hand, { child, protocol: 'low', language, answers: { ...kLow, awake: ['no', 'no', 'yes'], 'breathing-normally': 'yes', swallow: 'yes', 'help-here': 'yes', glucose: '92', symptoms: 'no' } });
      night.whileWaiting = async () => hand.picture(`emergency-wait-${language}`);
      for (let at = 0; at < 12 && await night.step(); ++at) await hand.picture(`emergency-${at}-${language}`);
      holds(night.steps.includes('rescue'), 'the rescue step was walked: ' + night.steps.join(' '));
    });
  });
}

// Rounds of two hours through a night: vomits once, ketones raised once, then three good checks.
export const kSick = { ...kLow, glucose: ['180', '210', '160', '150', '145', '140'], ketones: ['0.3', '0.9', '0.4', '0.3', '0.3', '0.2'], vomits: ['1', '0'], drinking: 'yes', breathing: 'usual', 'belly-pain': 'no', drowsy: 'no', fever: 'no', diarrhea: '0', 'what-is-wrong': 'stomach', 'sick-since': 'today', 'vomiting-since': '2 h', dehydrated: 'no', 'meals-missed': '0', 'supplies-low': 'no', 'clinic-said': 'stay', 'other-worry': 'no', seizure: 'no', 'wrong-insulin': 'no', 'rescue-given': 'no', 'last-rapid-insulin': '5 h', awake: 'yes', 'already-given': 'no', symptoms: 'no' };
for (const language of ['en', 'es']) {
  check(`a_sick_day_night_is_walked_on_the_page_by_simulated_time_in_${language}`, async () => {
    const child = childFile({ language, contacts: kNumbers, unit: 'mg/dL' });
    await onPhone(made(['--child', child]), async (hand) => {
      await hand.taps(language === 'en' ? 'Sick day' : 'Día de enfermedad');
      const night = new Night(hand, { child, protocol: 'illness', language, answers: kSickAnswers() });
      let waits = 0, drunk = 0;
      night.whileWaiting = async (view) => {
        ++waits;
        await hand.picture(`sick-wait-${waits}-${language}`);
        if (!view.drinks || waits > 2) return;
        await hand.taps(language === 'en' ? 'Type what was drunk' : 'Escribir lo que bebió');
        await hand.enters('60');
        drunk += 60;
        await hand.sees(`${drunk} mL`);
        await hand.picture(`sick-drunk-${waits}-${language}`);
      };
      await night.walk();
      holds(waits >= 3, `${waits} waits; steps: ${night.steps.join(' ')}`);
      holds(drunk >= 60, 'a drink was counted');
      await hand.picture(`sick-end-${language}`);
    });
  });
}
function kSickAnswers() { return { ...kSick }; }

check('a_mistyped_reading_is_taken_back_on_the_page', async () => {
  const child = childFile({ contacts: kNumbers });
  await onPhone(made(['--child', child]), async (hand) => {
    await hand.taps('Low glucose', 'Wakes and talks', 'Nothing');
    await hand.enters('152');
    await hand.taps('I mistyped', '152 mg/dL');
    await hand.picture('mistyped-en');
    await hand.enters('52');
    await hand.sees('Changed. Now it says: 52 mg/dL');
    same((await new Night(hand, { child, protocol: 'low', answers: {} }).view()).why.length > 0, true, 'the program follows');
  });
});

check('a_reading_with_a_digit_too_many_is_typed_twice_on_the_page', async () => {
  await onPhone(made(), async (hand) => {
    await hand.taps('Low glucose', 'Wakes and talks', 'Nothing');
    await hand.enters('520');
    await hand.sees('520 mg/dL is very high.');
    await hand.picture('typed-twice-en');
    await hand.enters('52');
    await hand.sees('You said: 52 mg/dL');
    const told = (await hand.kept()).filter((line) => line.includes('glucose'));
    same(told.length, 1, 'readings kept');
    holds(told[0].includes('52 mg/dL'), told[0]);
  });
});

check('a_number_no_meter_shows_is_asked_about_on_the_page', async () => {
  await onPhone(made(), async (hand) => {
    await hand.taps('Low glucose', 'Wakes and talks', 'Nothing');
    await hand.enters('4');
    await hand.sees('4 mg/dL cannot be right.');
    same((await hand.kept()).filter((line) => line.includes('glucose')).length, 0, 'readings kept');
    await hand.taps('Other unit: mmol/L');
    await hand.enters('4.2');
    await hand.enters('4.2');
    await hand.sees('You said: 4.2 mmol/L');
  });
});

check('something_got_worse_is_one_touch_away_on_every_screen_of_the_page', async () => {
  await onPhone(made(), async (hand) => {
    const worse = async () => holds(await hand.page.locator('#bar button.worse').isVisible(), 'worse is in reach on: ' + await hand.headline());
    await hand.taps('Low glucose');
    await worse();
    for (const name of ['More', 'About this page', 'Back', 'Back to the step', 'Why?', 'Back to the step', 'Call', 'Back']) { await hand.taps(name); await worse(); }
    await hand.taps('Wakes and talks', 'Nothing');
    await hand.enters('62');
    await hand.taps('Finger-prick meter');
    await worse();
    await hand.taps(await hand.page.locator('main > .main').textContent());
    await hand.sees('Time left');
    await worse();
    await hand.taps('Something got worse');
    await hand.picture('worse-en');
    await hand.taps('Will not wake');
    same(await hand.urgency(), 'emergency', 'the urgency');
  });
});

check('a_wait_that_ends_rings_until_somebody_touches_the_page', async () => {
  await onPhone(made(), async (hand) => {
    await hand.page.evaluate(() => {
      window.rang = 0;
      const start = OscillatorNode.prototype.start;
      OscillatorNode.prototype.start = function (...when) { ++window.rang; return start.apply(this, when); };
    });
    await hand.taps('Low glucose');
    const tried = await hand.page.evaluate(() => window.rang);
    holds(tried > 0, 'the alarm is tried at the start');
    await hand.sees('That sound was the alarm.');
    await hand.taps('Wakes and talks', 'Nothing');
    await hand.enters('62');
    await hand.taps('Finger-prick meter');
    await hand.taps(await hand.page.locator('main > .main').textContent());
    same(await hand.page.evaluate(() => window.rang), tried, 'sounds before the time');
    await hand.waits(15.5);
    await hand.sees('ALARM');
    await hand.picture('alarm-en');
    const first = await hand.page.evaluate(() => window.rang);
    holds(first > tried, 'it rings when the time is over');
    await hand.page.clock.runFor(25000);
    holds(await hand.page.evaluate(() => window.rang) > first, 'it rings again while nobody is there');
    await hand.taps('I am here. Stop the sound.');
    await hand.seesNot('ALARM');
    const stopped = await hand.page.evaluate(() => window.rang);
    await hand.page.clock.runFor(40000);
    same(await hand.page.evaluate(() => window.rang), stopped, 'sounds while somebody measures');
    await hand.page.clock.runFor(40000);
    holds(await hand.page.evaluate(() => window.rang) > stopped, 'it comes back when the check still is not made');
  });
});

check('a_touch_meant_for_the_screen_before_is_not_taken', async () => {
  await onPhone(made(), async (hand) => {
    await hand.taps('Low glucose', 'Wakes and talks', 'Nothing');
    await hand.enters('62');
    await hand.taps('Finger-prick meter');
    await hand.taps(await hand.page.locator('main > .main').textContent());
    const before = (await hand.kept()).length;
    await hand.page.clock.runFor(1000); // a touch right after a new screen is not taken for another reason
    // The time passes while the thumb is on its way: the page has not looked yet.
    await hand.page.evaluate(() => { const late = Date.now() + 20 * 60000; Date.now = () => late; const Old = Date; window.Date = class extends Old { constructor(...of) { super(...(of.length ? of : [late])); } }; });
    await (await hand.button('It went wrong')).click();
    await hand.rests();
    await hand.sees('The screen just changed.');
    same((await hand.kept()).length, before, 'lines kept');
  });
});

check('a_child_alone_is_shown_two_calls_and_no_medicine', async () => {
  const child = childFile({ contacts: kNumbers });
  await onPhone(made(['--child', child]), async (hand) => {
    await hand.taps('A child alone? Pictures');
    await hand.picture('pictures-en');
    const calls = await hand.page.locator('main a.tel').evaluateAll((all) => all.map((each) => each.getAttribute('href')));
    same(calls.join(' '), 'tel:5550102 tel:5550999', 'whom to call');
    holds((await hand.page.locator('main svg').count()) >= 6, 'drawings');
    const text = await hand.text();
    holds(text.includes('No needles.') && !/\b\d+ ?(g|mg|mL|units)\b/.test(text), 'no amount of anything: ' + text);
    holds(text.includes('12 Long Lane'), 'the address');
  });
});

check('a_child_file_without_numbers_never_shows_one_to_tap', async () => {
  await onPhone(made(), async (hand) => {
    same(await hand.page.locator('a[href^="tel:"]').count(), 0, 'numbers on the first screen');
    await hand.taps('Low glucose', 'Will not wake');
    same(await hand.page.locator('a[href^="tel:"]').count(), 0, 'numbers in an emergency');
    await hand.sees('your local emergency number');
  });
});
