// How soon the page asks.
import { browser, check, holds, kPhone, made, madeSingle, served } from './harness.mjs';
import { pathToFileURL } from 'node:url';

// From the request for the page to the moment at which the question stands on it.
export async function once(chrome, address, slowed) {
  const context = await chrome.newContext(kPhone);
  const page = await context.newPage();
  const client = await context.newCDPSession(page);
  await client.send('Emulation.setCPUThrottlingRate', { rate: slowed });
  await page.addInitScript(() => {
    new MutationObserver(() => { if (!window.stood && document.querySelector('main h1')) window.stood = performance.now(); }).observe(document, { childList: true, subtree: true });
  });
  await page.goto(address);
  await page.waitForFunction(() => window.stood > 0);
  const first = await page.evaluate(() => window.stood);
  const tapped = await page.evaluate(async () => {
    const begun = performance.now();
    document.querySelector('main .main').click();
    while (!document.querySelector('.lamp')) await new Promise((yes) => setTimeout(yes, 0));
    return performance.now() - begun;
  });
  await context.close();
  return { first, tapped };
}

// The quickest of seven: on a busy machine the others tell of the machine. A page that is too slow is so every time.
check('the_first_question_stands_within_a_second_with_the_processor_slowed_six_times', async () => {
  const server = await served(made());
  const chrome = await browser();
  for (const [name, address] of [['folder', server.address], ['single file', pathToFileURL(madeSingle()).href]]) {
    const times = [];
    for (let at = 0; at < 7; ++at) {
      const { first, tapped } = await once(chrome, address, 6);
      times.push(Math.round(first + tapped));
    }
    console.log(`        ${name}: ${times.join(' ')} ms`);
    holds(Math.min(...times) < 1000, `${name}: ${times.join(' ')} ms`);
  }
  await chrome.close();
  await server.stop();
});
