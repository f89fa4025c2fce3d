// The Back key of the phone: it closes what covers the step, and leaves the page, and with it the alarm, only when it is pressed twice.
// `page` says how many things Back can close (a step, and what covers it), closes the upper one, and says that the alarm would stop.
'use strict';
window.rushlightBack = function (page) {
  let depth = (history.state && history.state.depth) || 0; // entries of this page behind the one that stands there
  let warned = false;

  function deepen() {
    warned = false;
    try {
      while (depth < page.most()) { history.pushState({ depth: depth + 1 }, ''); ++depth; }
    } catch (refused) { /* then Back leaves at once, as without this */ }
  }

  window.addEventListener('popstate', function (event) {
    const now = (event.state && event.state.depth) || 0;
    const forward = now > depth;
    depth = now;
    if (forward) return;
    if (page.close()) return deepen();
    if (page.most() === 0 || warned) return history.go(-1 - depth);
    warned = true;
    page.warn();
  });

  return { deepen };
};
