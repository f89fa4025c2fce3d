// What every page here is judged by: an accessibility checker, and that it fits.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { same } from './harness.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export async function violations(hand, clockStands = true) {
  await hand.page.evaluate(axe);
  // axe waits by timers, and the page's clock stands still.
  const running = hand.page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }).then((found) => found.violations.map((each) => each.id + ': ' + each.nodes.map((node) => node.html.slice(0, 120)).join(' | '))));
  let over = false;
  running.finally(() => { over = true; });
  while (!over) { if (clockStands) await hand.page.clock.runFor(50); await new Promise((yes) => setTimeout(yes, 10)); }
  return running;
}

// No sideways scrolling, nothing cut, nothing too small for a thumb, the worse button not in the way.
export async function fits(hand, name, least = 44) {
  const found = await hand.page.evaluate((least) => {
    const faults = [];
    const wide = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth > wide) faults.push('scrolls sideways: ' + document.documentElement.scrollWidth + ' > ' + wide);
    for (const each of document.querySelectorAll('button, a, p, h1, li, output')) {
      const box = each.getBoundingClientRect();
      if (box.width === 0) continue;
      if (box.left < -1 || box.right > wide + 1) faults.push('beyond the edge: ' + each.textContent.slice(0, 40));
      if (each.scrollWidth > each.clientWidth + 1 && getComputedStyle(each).display !== 'inline') faults.push('cut: ' + each.textContent.slice(0, 40));
      if (/^(BUTTON|A)$/.test(each.tagName) && (box.height < least || box.width < least)) faults.push('small: ' + each.textContent.slice(0, 40) + ' ' + box.width + 'x' + box.height);
    }
    const bar = document.querySelector('#bar');
    if (bar && !bar.hidden && getComputedStyle(bar).position === 'sticky' && bar.getBoundingClientRect().height > innerHeight * 0.3) faults.push('the bar takes ' + bar.getBoundingClientRect().height + ' of ' + innerHeight);
    return faults;
  }, least);
  same(found.join('; '), '', name);
}
