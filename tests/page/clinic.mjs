// The clinic's page: what a nurse types, beside what the program says of the same numbers.
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Nurse, atTheDesk, bytesOf, checked, clinicPage, compared, ownSet } from './desk.mjs';
import { browser, check, folder, holds, run, same, served } from './harness.mjs';

// The program tells the first few examples that come out otherwise, the page all of them.
function sameFindings(page, program) {
  const ofExamples = (finding) => finding.startsWith('examples.xml:');
  const others = (findings) => findings.filter((each) => !ofExamples(each)).sort().join('\n');
  same(others(page), others(program), 'the findings');
  for (const each of program.filter(ofExamples)) same(page.includes(each), true, 'an example: ' + each);
}

check('a_nurse_changes_a_number_and_sees_what_compare_and_check_say_and_the_saved_table_makes_that_set', async () => {
  const set = ownSet(), was = ownSet('was'), now = ownSet('now');
  same(run(['thresholds', now, '--change', 'low=65 mg/dL, 3.6 mmol/L']).status, 0, 'the change in the program');
  await atTheDesk(set, async (nurse) => {
    await nurse.picture('clinic-before');
    const begun = Date.now();
    await nurse.types('low', '65');
    await nurse.found();
    same(await nurse.field('low', 1).inputValue(), '3.6', 'the other value');
    holds((await nurse.told('low')).includes('3.6 mmol/L is worked out from the other value'), 'said to be worked out');
    const findings = await nurse.findings(), expected = checked(now);
    holds(findings.length > 0, 'something is found');
    sameFindings(findings, expected);
    await nurse.is('done');
    console.log(`        a number of all three protocols: compared ${Date.now() - begun} ms after it was typed`);
    const changes = await nurse.changes(), told = compared(was, now);
    same(Object.keys(changes).sort().join(' '), 'illness ketones low', 'protocols');
    for (const protocol of Object.keys(changes)) same(changes[protocol], told[protocol], protocol);
    holds(/1 number is changed\. \d+ outcomes are calmer than before/.test(await nurse.status()), await nurse.status());
    await nurse.picture('clinic-changed');

    const table = await nurse.saves();
    await nurse.sees('Nothing has changed yet. On the computer that has the set: rushlight thresholds my-clinic --from my-clinic-numbers.csv');
    const taken = run(['thresholds', set, '--from', table]);
    same(taken.status, 0, 'taken: ' + taken.err + taken.out);
    same(bytesOf(set) === bytesOf(now), true, 'the set is the one that was looked at, byte for byte');
  });
});

// Several at once, of every kind, one of them with bands; in Spanish.
check('several_numbers_are_looked_at_and_saved_together_in_spanish', async () => {
  const set = ownSet('harbour', 'harbour-lane'), now = ownSet('now', 'harbour-lane');
  const listed = JSON.parse(run(['thresholds', now, '--json']).out).numbers;
  const wanted = [];
  for (const kind of ['time', 'glucose', 'count', 'carbohydrate', 'ketones', 'clock']) {
    const number = listed.find((each) => each.kind === kind && each.values[0].value !== each.least && each.least !== each.most);
    if (!number) continue;
    const band = number.values[0].band ? ':' + number.values[0].band : '';
    wanted.push({ field: number.name + band, value: kind === 'glucose' ? String(Number(number.values[0].mg_per_dl) + 1) : number.least.split(' ')[0], unit: kind === 'glucose' ? ' mg/dL' : number.least.slice(number.least.split(' ')[0].length) });
  }
  const banded = listed.find((each) => each.values.length > 1 && each.kind !== 'glucose' && each.values[1].value !== each.most);
  if (banded) wanted.push({ field: banded.name + ':' + banded.values[1].band, value: banded.most.split(' ')[0], unit: banded.most.slice(banded.most.split(' ')[0].length) });
  holds(wanted.length >= 4, 'numbers: ' + wanted.length);
  same(run(['thresholds', now, '--draft', '--yes', '--change', ...wanted.map((each) => `${each.field}=${each.value}${each.unit}`)]).status, 0, 'the changes in the program');
  await atTheDesk(set, async (nurse) => {
    for (const each of wanted) await nurse.types(each.field, each.value);
    await nurse.found();
    await nurse.sees(`Han cambiado ${wanted.length} números.`);
    sameFindings(await nurse.findings(), checked(now));
    await nurse.is('done');
    const taken = run(['thresholds', set, '--draft', '--from', await nurse.saves()]);
    same(taken.status, 0, 'taken: ' + taken.err);
    same(bytesOf(set) === bytesOf(now), true, 'byte for byte');
  }, { words: ['--lang', 'es'] });
}, { program: true });

check('a_number_that_cannot_be_is_refused_beside_its_field_and_nothing_else_is_lost', async () => {
  const set = ownSet(), before = bytesOf(set);
  await atTheDesk(set, async (nurse) => {
    await nurse.types('rest-of-wait', '12');
    for (const [mg, mmol, says] of [['20', null, 'write a value from 45 mg/dL to 65 mg/dL'], ['50', '3.9', '2.8'], ['1,500', null, 'thousand'], ['', '', 'a number is missing here'],
      ['<img src=x onerror="window.ran=1">', null, '<img src=x onerror='], ['\u202e05\u0007', null, 'Not taken']]) {
      await nurse.types('very-low', mg);
      if (mmol !== null) await nurse.types('very-low', mmol, 1);
      await nurse.until(async () => (await nurse.told('very-low')).includes(says), says + ' beside ' + mg + ': ' + await nurse.told('very-low'));
      await nurse.is('done');
      holds((await nurse.status()).startsWith('1 number is changed. 1 number cannot be taken.'), await nurse.status());
      same(await nurse.field('very-low').getAttribute('aria-invalid'), 'true', 'said to who cannot see it');
      await nurse.page.getByRole('button', { name: 'Save the table' }).click();
      await nurse.sees('Not saved. Mend the numbers that cannot be taken');
      if (says === 'thousand') await nurse.picture('clinic-refused');
      await nurse.page.getByRole('button', { name: 'Put back: Very low below' }).click();
      await nurse.until(async () => (await nurse.told('very-low')) === '', 'nothing beside it');
      same(await nurse.field('very-low').inputValue() + ' ' + await nurse.field('very-low', 1).inputValue(), '54 3.0', 'as it was');
    }
    same(await nurse.field('rest-of-wait').inputValue(), '12', 'the other number is still there');
    // A comma is a decimal mark where it can be nothing else; the value is what the set has already.
    await nurse.types('very-low', '3,0', 1);
    await nurse.is('done');
    holds((await nurse.status()).startsWith('1 number is changed.') && !(await nurse.status()).includes('cannot'), await nurse.status());
    // A unit of one's own is understood.
    await nurse.types('hour', '45 min');
    await nurse.is('done');
    holds((await nurse.status()).startsWith('2 numbers are changed.'), await nurse.status());
    same(await nurse.page.evaluate(() => window.ran === undefined), true, 'nothing ran');
    await nurse.page.getByRole('button', { name: 'Put all back' }).click();
    await nurse.is('done');
    same(await nurse.field('rest-of-wait').inputValue() + ' ' + await nurse.field('hour').inputValue(), '10 1', 'put back');
    same((await nurse.changes()).low, undefined, 'nothing changes');
    await nurse.page.getByRole('button', { name: 'Save the table' }).click();
    await nurse.sees('there is nothing to save');
  });
  same(bytesOf(set) === before, true, 'the set is as it was');
});

check('a_change_that_breaks_a_law_shows_the_error_first_and_the_map_and_no_comparison', async () => {
  const set = ownSet(), now = ownSet('now');
  same(run(['thresholds', now, '--draft', '--change', 'recheck=20 min']).status, 0, 'the change in the program');
  await atTheDesk(set, async (nurse) => {
    await nurse.types('recheck', '20');
    await nurse.is('done');
    sameFindings(await nurse.findings(), checked(now));
    same(await nurse.page.locator('#check .finding').first().getAttribute('class'), 'finding error', 'the error stands first');
    await nurse.sees('What changes is shown when the errors below are mended.');
    const table = await nurse.saves();
    await nurse.sees('the program will not take it before they are mended');
    same(run(['thresholds', set, '--from', table]).status, 1, 'refused by the program too');
  });
});

// A number of one protocol that takes a while to compare.
check('a_comparison_that_is_out_of_date_is_never_shown', async () => {
  const was = ownSet('was'), now = ownSet('now');
  same(run(['thresholds', now, '--yes', '--change', 'still-high=256 mg/dL']).status, 0, 'the change in the program');
  await atTheDesk(ownSet(), async (nurse) => {
    await nurse.types('still-high', '250');
    await nurse.is('found');
    await nurse.types('still-high', '256');
    await nurse.is('done');
    const changes = await nurse.changes(), told = compared(was, now);
    same(Object.keys(changes).join(' '), 'ketones', 'one protocol');
    same(changes.ketones, told.ketones, 'of the last number');
    await nurse.types('still-high', '250');
    await nurse.is('found');
    await nurse.page.getByRole('button', { name: /^Put back: / }).first().click();
    await nurse.is('done');
    await new Promise((yes) => setTimeout(yes, 1500));
    same(Object.keys(await nurse.changes()).join(' '), '', 'nothing changes');
    holds((await nurse.status()).startsWith('No number is changed.'), await nurse.status());
  });
});

check('the_map_of_a_step_is_a_picture_of_both_versions_and_can_be_another', async () => {
  await atTheDesk(ownSet(), async (nurse) => {
    await nurse.types('low', '65');
    await nurse.until(async () => (await nurse.page.locator('img.map').getAttribute('alt')).includes(', glucose'), 'the map of a step that compares with it');
    const read = () => nurse.page.evaluate(() => ({ wide: document.querySelector('img.map').naturalWidth, told: document.querySelector('#map details p').textContent, svg: document.querySelectorAll('#map svg').length }));
    await nurse.until(async () => (await read()).wide > 0, 'a picture');
    holds((await read()).told.length > 100, 'the map in words');
    same((await read()).svg, 0, 'no drawing stands in the page itself');
    await nurse.page.locator('#map-step').selectOption('still-low');
    await nurse.until(async () => (await nurse.page.locator('img.map').getAttribute('alt')).includes('still-low'), 'the map of still-low');
    await nurse.page.locator('#map-down').focus();
    await nurse.page.locator('#map-down').selectOption('low-treatments');
    await nurse.until(async () => (await read()).told.includes('low-treatments') && (await read()).wide > 0, 'both axes');
    same(await nurse.page.evaluate(() => document.activeElement.id), 'map-down', 'the focus stays');
    await nurse.picture('clinic-map');
  });
});

check('what_was_typed_is_not_lost_without_a_word', async () => {
  await atTheDesk(ownSet(), async (nurse) => {
    const { page } = nurse;
    const leaves = () => page.evaluate(() => { window.stays = true; setTimeout(() => location.reload(), 0); });
    await nurse.field('recheck').focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('12');
    await nurse.is('done');
    await leaves();
    await nurse.until(async () => nurse.faults.length > 0, 'a question before it goes');
    same(nurse.faults.splice(0).map((each) => each.slice(0, 7)).join(' '), 'dialog:', 'asked once');
    same(await nurse.field('recheck').inputValue() + (await page.evaluate(() => window.stays)), '12true', 'nothing is lost');
    await nurse.saves();
    await leaves();
    await nurse.until(async () => page.evaluate(() => window.stays === undefined).catch(() => false), 'what is saved needs no question');
    await nurse.is('done');
    same(await nurse.field('recheck').inputValue(), '15', 'nothing is kept');
  });
});

const kHostile = ['</script><script>window.ran=1</script>', '<img src=x onerror="window.ran=1">', '"><svg onload=window.ran=1>', '<!--<script>', '{1} @SCRIPTS@ @HEAD@', '&lt;b&gt;'];
for (const how of ['folder', 'single']) {
  check(`hostile_texts_in_a_set_run_nothing_on_the_clinics_page_in_a_${how}`, async () => {
    const set = ownSet();
    const xml = (text) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/\{/g, '(').replace(/\}/g, ')');
    let next = 0;
    const hostile = readFileSync(join(set, 'low.xml'), 'utf8').replace(/<(en|es)>(Treat|Measure|Sugar|Trate|Low|Very low|High|Tratar|Medir)([^<]*)</g, (all, language, first, rest) => `<${language}>${first}${rest} ${xml(kHostile[next++ % kHostile.length])}<`)
      .replace(/publisher="/g, () => `publisher="${xml(kHostile[next++ % kHostile.length]).replace(/"/g, '&quot;')}`);
    holds(next > 10, 'texts: ' + next);
    writeFileSync(join(set, 'low.xml'), hostile);
    const chrome = await browser();
    const context = await chrome.newContext({ viewport: { width: 1200, height: 900 } });
    const asked = [];
    let server = null, address = '';
    if (how === 'folder') {
      const out = join(folder(), 'clinic');
      same(run(['page', '--clinic', '--out', out, '--protocols', set]).status, 0, 'the page is made');
      server = await served(out);
      address = server.address;
    } else {
      address = clinicPage(set);
    }
    context.on('request', (request) => { if (!request.url().startsWith(address) && !/^(blob|file):/.test(request.url())) asked.push(request.url()); });
    const nurse = await Nurse.at(context, address);
    await nurse.sees('<img src=x onerror="window.ran=1">');
    await nurse.types('low/recheck', '12'); // with another label it is another number than that of the other files
    await nurse.is('done');
    await nurse.page.evaluate(() => document.querySelectorAll('details').forEach((each) => { each.open = true; }));
    await nurse.sees('</script><script>window.ran=1</script>');
    await nurse.page.getByRole('button', { name: 'Español: cambiar el idioma' }).click();
    await nurse.is('done');
    same(await nurse.page.evaluate(() => window.ran === undefined), true, 'nothing ran');
    same(asked.join(' '), '', 'requests');
    same(nurse.faults.join('; '), '', 'faults');
    await chrome.close();
    if (server) await server.stop();
  });
}

check('a_page_for_the_clinic_is_refused_for_a_set_that_cannot_be_read_and_needs_no_child', async () => {
  const broken = ownSet();
  writeFileSync(join(broken, 'low.xml'), readFileSync(join(broken, 'low.xml'), 'utf8').replace('</protocol>', ''));
  const refused = run(['page', '--clinic', '--single', join(folder(), 'page.html'), '--protocols', broken]);
  same(refused.status, 1, refused.err);
  const inside = join(folder(), 'inside.html');
  same(run(['page', '--clinic', '--single', inside]).status, 0, 'a set inside the program, no child');
  holds(readFileSync(inside, 'utf8').includes('"inside":true'), 'says that it is inside');
  same(run(['page', '--clinic', '--demo-child', '--single', join(folder(), 'x.html')]).status, 2, 'no child with it');
  const draft = ownSet();
  same(run(['thresholds', draft, '--draft', '--change', 'recheck=20 min']).status, 0, 'a draft');
  same(run(['page', '--clinic', '--single', join(folder(), 'draft.html'), '--protocols', draft]).status, 0, 'a set with an error of sense is what the page is for');
}, { program: true });
