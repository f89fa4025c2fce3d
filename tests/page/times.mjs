// How soon the page asks.
import { kPhone } from './harness.mjs';

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
