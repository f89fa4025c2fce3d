// The clinic's page: what is typed goes to the engine, what it says is shown. Nothing is worked out here.
'use strict';
(function () {
  const { say, h } = window.rushlightElements;
  const data = window.rushlightClinic;
  const kPause = 120; // milliseconds after the last key before the engine is asked
  const page = document.getElementById('page');
  let language = document.documentElement.lang === 'es' ? 'es' : 'en';
  const words = function () { return window.rushlightClinicWords[language]; };

  // ---------- the engine, in two workers ----------

  // One answers at once. The other compares, which can take long; when something else is typed meanwhile it is let go, and a new one begins.
  const script = URL.createObjectURL(new Blob([window.rushlightClinicEngine], { type: 'text/javascript' }));
  function engine() {
    const worker = new Worker(script);
    const waiting = new Map();
    let numbered = 0;
    function post(does, what) {
      return new Promise(function (yes, no) {
        waiting.set(++numbered, { yes, no });
        worker.postMessage({ number: numbered, does, what });
      });
    }
    worker.onmessage = function (message) {
      const asked = waiting.get(message.data.number);
      waiting.delete(message.data.number);
      if (message.data.failed) asked.no(new Error(message.data.failed));
      else asked.yes(JSON.parse(message.data.answer));
    };
    worker.onerror = function (event) { event.preventDefault(); failed(new Error(event.message || 'worker')); };
    const opened = post('open', { drafts: data.drafts, files: data.files }).then(function (answer) {
      if (answer.error) throw new Error(answer.error.sentence);
    });
    return {
      ask: function (request) { return opened.then(function () { return post('ask', request); }); },
      end: function () { worker.terminate(); }
    };
  }
  const quick = engine();
  let slow = null; // { ask, end }, with `busy`: how many of its answers are not there yet
  function ask(request) { return quick.ask(request); }
  async function askSlow(request) {
    const mine = slow = slow || Object.assign(engine(), { busy: 0 });
    ++mine.busy;
    const answer = await mine.ask(request);
    --mine.busy;
    return answer;
  }
  function letGo() {
    if (!slow || slow.busy === 0) return;
    slow.end();
    slow = null;
  }

  // ---------- what stands on the page ----------

  const form = window.rushlightClinicForm({ words, changed: typed });
  const told = window.rushlightClinicTold(words);
  const map = window.rushlightClinicMap({ words, ask });
  let shown = null; // the form in this language
  let last = { plan: { changes: [], refused: [], protocols: [] }, found: null, compared: [], open: [] };
  let parts = {}; // elements that change
  let dirty = false, working = false, timer = 0, note = '', savedAs = '', comparing = 0;

  function state(name) { document.body.dataset.state = name; }

  function refusedFields() { return new Set(last.plan.refused.map(function (each) { return each.field; })).size; }
  function status() {
    if (note) return note;
    const refused = refusedFields(), changes = last.plan.changes.length;
    const count = changes === 0 ? words().noChange : changes === 1 ? words().oneChanged : say(words().changed, String(changes));
    const bad = refused === 0 ? '' : refused === 1 ? ' ' + words().oneRefused : ' ' + say(words().refused, String(refused));
    const calmer = told.calmer(last.compared);
    const look = calmer === 0 ? '' : calmer === 1 ? ' ' + words().oneCalmer : ' ' + say(words().calmer, String(calmer));
    return count + bad + look + (working || dirty || last.open.length > 0 ? ' ' + words().working : last.found ? ' ' + say(words().errors, String(last.found.errors), String(last.found.warnings)) : '');
  }
  function drawStatus() {
    const text = status();
    parts.follows.setAttribute('aria-busy', dirty || working ? 'true' : 'false');
    if (parts.status.textContent !== text) parts.status.textContent = text;
  }
  // It stays in sight while it leaves room to work in.
  function fitBar() { if (parts.tools) parts.tools.classList.toggle('loose', parts.tools.offsetHeight > window.innerHeight * 0.3); }
  const barSize = new ResizeObserver(fitBar);
  window.addEventListener('resize', fitBar);
  function titleOf(protocol) { return shown.protocols.find(function (each) { return each.protocol === protocol; }).title; }
  function tellFields() {
    const said = form.tell(last.plan);
    parts.mine.replaceChildren(...said.mine, ...said.general.map(function (each) { return h('p', { class: 'bad' }, words().generalRefusal + ' ', h('span', { lang: 'en' }, each.told.sentence)); }));
  }
  function drawFollows() {
    if (!last.found) return;
    parts.index.replaceChildren(...told.index(last.compared, last.found));
    const changes = told.changes(last.compared, last.found.errors > 0 && last.plan.changes.length > 0, last.open.map(titleOf));
    const findings = told.findings(last.found, last.plan.changes.length > 0);
    parts.changes.replaceWith(changes);
    parts.findings.replaceWith(findings);
    parts.changes = changes;
    parts.findings = findings;
  }

  // ---------- live ----------

  function typed() {
    dirty = true;
    note = '';
    savedAs = '';
    ++comparing;
    letGo();
    last.open = [];
    state('typed');
    drawStatus();
    clearTimeout(timer);
    timer = setTimeout(work, kPause);
  }
  // Step by step; whatever is typed meanwhile begins it anew, so that nothing stands there for numbers that are gone.
  async function workOnce() {
    const fields = form.typed();
    const plan = await ask({ do: 'plan', language, fields });
    if (dirty) return;
    last.plan = plan;
    tellFields();
    drawStatus();
    const found = await ask({ do: 'check' });
    if (dirty) return;
    last.found = found;
    last.compared = [];
    last.open = found.errors > 0 ? [] : plan.protocols.slice();
    drawFollows();
    state('found');
    map.lead(plan.shows);
    await map.show();
    if (!dirty && last.open.length > 0) compare(fields, plan.protocols);
  }
  // Beside the rest: a comparison that is not there yet holds back nothing else.
  async function compare(fields, protocols) {
    const mine = ++comparing;
    try {
      await askSlow({ do: 'plan', language, fields });
      for (const protocol of protocols) {
        const answer = await askSlow({ do: 'compare', protocol });
        if (mine !== comparing) return;
        last.open = last.open.filter(function (each) { return each !== protocol; });
        if (!answer.error) last.compared.push({ title: titleOf(protocol), told: answer });
        drawFollows();
        drawStatus();
      }
      if (last.open.length === 0) state('done');
    } catch (error) {
      failed(error);
    }
  }
  async function work() {
    if (working) return;
    working = true;
    try {
      while (dirty) {
        dirty = false;
        await workOnce();
      }
      working = false;
      drawStatus();
      if (last.open.length === 0) state('done');
    } catch (error) {
      failed(error);
    }
  }
  function failed(error) {
    state('failed');
    if (shown) { // what was typed stays there to be read
      note = say(words().failed, error.message);
      working = false;
      return drawStatus();
    }
    page.replaceChildren(h('main', {}, h('h1', {}, say(words().title, data.set)), h('p', { class: 'bad', role: 'alert' }, say(words().failed, error.message))));
  }

  // ---------- saving ----------

  async function save() {
    const refused = refusedFields();
    note = dirty || working ? words().saveWaits : refused > 0 ? words().saveRefused : last.plan.changes.length === 0 ? words().saveNothing : '';
    if (note) return drawStatus();
    const table = (await ask({ do: 'csv', language })).csv;
    const name = data.set.replace(/[^\p{L}\p{N}._-]/gu, '-') + '-numbers.csv';
    const address = URL.createObjectURL(new Blob([table], { type: 'text/csv' }));
    h('a', { href: address, download: name }).click();
    setTimeout(function () { URL.revokeObjectURL(address); }, 60000);
    savedAs = name;
    note = say(last.found && last.found.errors > 0 ? words().saveErrors : words().saved, name, 'rushlight thresholds ' + ownSet() + ' --from ' + name);
    drawStatus();
  }
  function putAllBack() {
    form.putAllBack();
    note = words().allDone;
    drawStatus();
  }
  // Nothing is kept: what was typed and not saved is asked about before the page goes.
  window.addEventListener('beforeunload', function (event) {
    if (!form.isTyped() || savedAs) return;
    event.preventDefault();
    event.returnValue = '';
  });

  // ---------- drawing ----------

  // A set inside the program is copied first.
  function ownSet() { return data.inside ? language === 'es' ? 'mi-clinica' : 'my-clinic' : data.shell; }
  function command(text) { return h('li', {}, h('code', {}, text)); }
  function head() {
    const set = ownSet();
    return h('header', {},
      h('div', { class: 'top' }, h('h1', { tabindex: '-1' }, say(words().title, data.set)),
        h('button', { type: 'button', class: 'small', lang: language === 'es' ? 'en' : 'es', 'aria-label': words().languageLabel, onclick: otherLanguage }, words().language)),
      h('p', {}, words().what + ' ', h('strong', {}, words().nothingYet)),
      h('p', { class: 'care' }, words().care, h('br', {}), say(words().standing, data.made, data.approval[language])),
      h('p', { class: 'soft' }, shown.caution),
      h('details', {}, h('summary', {}, words().how),
        data.inside ? h('p', {}, words().inside) : null,
        data.inside ? h('ul', { class: 'plain' }, command('rushlight new-set ' + set + ' --from ' + data.shell)) : null,
        h('ol', {}, h('li', {}, words().how1),
          h('li', {}, words().how2, h('ul', { class: 'plain' }, command('rushlight thresholds ' + set + ' --from FILE.csv'), command('rushlight check ' + set))),
          h('li', {}, words().how3, h('ul', { class: 'plain' }, command('rushlight approve ' + set + ' --as NAME --role ROLE --until DATE')))),
        h('p', {}, words().limits),
        h('p', { class: 'soft' }, say(words().made, data.made, data.set))));
  }
  function go(id) { return function () { const title = document.getElementById(id); title.focus(); title.scrollIntoView(); }; }

  function draw() {
    document.title = say(words().title, data.set);
    parts = { status: h('p', { role: 'status', id: 'status' }), changes: h('section', {}), findings: h('section', {}), mine: h('div', {}), index: h('ul', { class: 'index' }) };
    const numbers = form.draw(shown.form);
    const follows = h('aside', { 'aria-labelledby': 'follows-title' },
      h('h2', { id: 'follows-title', class: 'first', tabindex: '-1' }, words().follows),
      h('button', { type: 'button', class: 'small narrow', onclick: go('numbers-title') }, words().toForm),
      h('nav', { 'aria-labelledby': 'follows-title' }, parts.index), parts.mine, parts.changes, parts.findings, map.draw(shown.protocols));
    parts.follows = follows;
    parts.tools = h('section', { class: 'tools', 'aria-label': words().tools }, parts.status,
      h('div', { class: 'buttons' },
        h('button', { type: 'button', class: 'narrow', onclick: go('follows-title') }, words().toFollows),
        h('button', { type: 'button', onclick: putAllBack }, words().all),
        h('button', { type: 'button', class: 'main', onclick: save }, words().save)));
    page.replaceChildren(head(), h('main', {}, numbers), follows, parts.tools);
    barSize.disconnect();
    barSize.observe(parts.tools);
    tellFields();
    drawFollows();
    drawStatus();
  }
  async function otherLanguage() {
    language = language === 'es' ? 'en' : 'es';
    document.documentElement.lang = language;
    shown = await ask({ do: 'form', language });
    draw();
    page.querySelector('header button').focus();
    const saved = savedAs;
    typed(); // the engine's words in the other language
    savedAs = saved;
  }

  ask({ do: 'form', language }).then(function (form) {
    shown = form;
    draw();
    state('form');
    dirty = true;
    return work();
  }).catch(failed);
})();
