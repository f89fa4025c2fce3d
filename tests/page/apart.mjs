// Texts of a child file and of a protocol are text, whatever stands in them.
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Hand, browser, check, folder, holds, kInvented, kPhone, made, madeSingle, run, same, served } from './harness.mjs';
import { childFile } from './night.mjs';
import { pathToFileURL } from 'node:url';

const kHostile = [
  '</script><script>window.ran=1</script>', '<img src=x onerror="window.ran=1">', '"><svg onload=window.ran=1>', '<!--<script>', ']]>',
  "javascript:window.ran=1", '${window.ran=1}', '{1} {2} @CARD_EN@ @SCRIPTS@', '<link rel=stylesheet href=//example.invalid/x.css>', '&lt;b&gt; &amp; \\u003cscript>'
];

function hostileSet() {
  const place = join(folder(), 'set');
  cpSync(join(process.env.RUSHLIGHT_SOURCE, 'protocols', 'reference'), place, { recursive: true });
  const xml = (text) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/\{/g, '(').replace(/\}/g, ')');
  let next = 0;
  const text = readFileSync(join(place, 'low.xml'), 'utf8').replace(/<(en|es)>(Wakes and talks|Low glucose|Nothing|Try to wake[^<]*|Glucosa baja)<\/\1>/g,
    (all, language, words) => `<${language}>${words} ${xml(kHostile[next++ % kHostile.length])}</${language}>`);
  holds(next > 3, 'texts were changed: ' + next);
  writeFileSync(join(place, 'low.xml'), text);
  return place;
}

for (const how of ['folder', 'single']) {
  check(`hostile_texts_in_child_and_protocol_run_nothing_and_load_nothing_in_a_${how}`, async () => {
    const set = hostileSet();
    // Three texts a page: as name, as address and as the other adult.
    for (let at = 0; at < kHostile.length; at += 3) {
      const [text, where, adult] = [0, 1, 2].map((further) => kHostile[(at + further) % kHostile.length]);
      const child = childFile({ name: text.slice(0, 90), contacts: { clinic: '(555) 0100', on_call: '+1.555-0101', emergency: '555 0999', address: where, second_adult: { name: adult.slice(0, 60), number: '555/0102' } } });
      const words = ['--child', child, '--protocols', set];
      const server = how === 'folder' ? await served(made(words)) : null;
      const address = server ? server.address : pathToFileURL(madeSingle(words)).href;
      const chrome = await browser();
      const context = await chrome.newContext(kPhone);
      const asked = [];
      context.on('request', (request) => { if (!request.url().startsWith(address) && !request.url().startsWith('blob:')) asked.push(request.url()); });
      const hand = await Hand.at(context, address);
      await hand.sees(text.slice(0, 60).trim());
      await hand.taps(/^Low glucose/, /^Wakes and talks/, 'More', 'Phone numbers and address', 'Back to the step', 'Call');
      await hand.sees(adult.slice(0, 60).trim());
      await hand.sees(where);
      await hand.taps('Back', 'More', 'A child alone? Pictures', 'A grown-up is here');
      same(await hand.page.evaluate(() => window.ran === undefined), true, 'nothing ran for ' + text);
      same(asked.join(' '), '', 'requests for ' + text);
      same(hand.faults.join('; '), '', 'faults for ' + text);
      const links = await hand.page.locator('a').evaluateAll((all) => all.map((each) => each.getAttribute('href')));
      for (const link of links) holds(/^tel:\+?[0-9]+$/.test(link), 'a link: ' + link);
      await chrome.close();
      if (server) await server.stop();
    }
  });
}

check('a_child_file_whose_number_is_none_makes_no_page', async () => {
  for (const number of [...kHostile, 'tel:5"><script>', '555 0999 <b onclick=window.ran=1>']) {
    const done = run(['page', '--single', join(folder(), 'page.html'), '--child', childFile({ contacts: { emergency: number.slice(0, 40) } })]);
    same(done.status, 1, 'the exit status for ' + number);
    holds(done.err.includes('is not a telephone number'), done.err);
  }
}, { program: true });

check('a_page_allows_nothing_from_elsewhere', async () => {
  for (const words of [[made(), 'index.html'], [join(madeSingle(), '..'), 'page.html']]) {
    const html = readFileSync(join(...words), 'utf8');
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)[1];
    holds(policy.startsWith("default-src 'none';"), policy);
    holds(!/unsafe-inline|unsafe-eval'|https?:|\*|data:|blob:/.test(policy.replace("'wasm-unsafe-eval'", '')), policy);
    holds(!/(src|href)="(https?:)?\/\//.test(html.replace(/window\.rushlightData[^\n]*/, '')), 'no address of elsewhere');
  }
});

check('a_page_for_trying_out_is_given_to_this_machine_alone', async () => {
  const { spawn } = await import('node:child_process');
  const { request } = await import('node:http');
  const server = spawn(process.env.RUSHLIGHT_PROGRAM, ['page', '--serve', ...kInvented], { env: { HOME: folder(), PATH: process.env.PATH } });
  try {
    const said = await new Promise((yes) => server.stdout.once('data', (data) => yes(String(data))));
    const port = Number(/127\.0\.0\.1:(\d+)/.exec(said)[1]);
    const ask = (path, more = {}) => new Promise((yes, no) => request({ host: '127.0.0.1', port, path, ...more }, (answer) => {
      let text = '';
      answer.on('data', (part) => { text += part; });
      answer.on('end', () => yes({ status: answer.statusCode, text, type: answer.headers['content-type'] }));
    }).on('error', no).end());
    same((await ask('/')).status, 200, 'the page');
    same((await ask('/child.json')).status, 200, 'a file of it');
    same((await ask('/../../etc/passwd')).status, 404, 'a file of the machine');
    same((await ask('/', { headers: { host: 'elsewhere.invalid' } })).status, 403, 'under another name');
    same((await ask('/', { method: 'POST' })).status, 405, 'another method');
    const listens = readFileSync('/proc/net/tcp', 'utf8').split('\n').filter((line) => line.includes(':' + port.toString(16).toUpperCase().padStart(4, '0') + ' 00000000:0000'));
    same(listens.length === 1 && listens[0].includes('0100007F:'), true, 'it listens on the loopback only: ' + listens.join());
    const chrome = await browser();
    const hand = await Hand.at(await chrome.newContext(kPhone), `http://127.0.0.1:${port}/`);
    await hand.taps('Low glucose');
    await hand.sees('Try to wake');
    await chrome.close();
  } finally {
    server.kill('SIGINT');
    await new Promise((yes) => server.once('exit', yes));
  }
}, { program: true });

check('a_page_that_is_there_already_is_not_written_over', async () => {
  const out = made();
  const again = run(['page', '--out', out, '--demo-child']);
  same(again.status, 1, 'the exit status');
  holds(again.err.includes('is already there'), again.err);
  const broken = hostileSet();
  writeFileSync(join(broken, 'low.xml'), '<protocol>');
  same(run(['page', '--out', join(folder(), 'new'), '--demo-child', '--protocols', broken]).status, 1, 'a refused set');
  same(run(['page', '--demo-child']).status, 2, 'nowhere to go');
}, { program: true });

check('a_damaged_page_shows_the_first_aid_card', async () => {
  const { appendFileSync } = await import('node:fs');
  for (const fault of ['model', 'engine', 'data']) {
    const root = made();
    if (fault === 'engine') writeFileSync(join(root, 'engine.js'), 'window.createEngine = function () { return Promise.reject(new Error("no")); };');
    if (fault === 'data') writeFileSync(join(root, 'data.js'), 'window.rushlightData = ');
    if (fault === 'model') writeFileSync(join(root, 'data.js'), readFileSync(join(root, 'data.js'), 'utf8').replace('rushlight-model 1 ', 'rushlight-model 1 9'));
    const server = await served(root);
    const chrome = await browser();
    const hand = await Hand.at(await chrome.newContext(kPhone), server.address);
    await hand.sees('FIRST AID FOR A LOW');
    await hand.sees('PRIMEROS AUXILIOS');
    if (fault !== 'data') await hand.sees('This page cannot go on');
    same((await hand.text()).includes('What is it about?'), false, 'no walk');
    await hand.picture('card-' + fault);
    await chrome.close();
    await server.stop();
  }
});
