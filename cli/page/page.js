// The face of the walk on a phone. It draws what the engine says, sends back what was touched, keeps the lines and sounds the alarm.
// No rule of care stands here: which screen follows is the engine's alone.
'use strict';
(function () {
  const data = window.rushlightData;
  const { say, h, button, telButton, unbroken, unbrokenIn, title, lamp, linesOf, clockFace, drawClock, field, keysOf, bell, belowDeeds, settle, later } = window.rushlightFace;
  const alarm = window.rushlightAlarm;
  const kOld = 4 * 3600 * 1000; // an open episode with nothing said for longer is asked about, as in the terminal
  const kPatienceToOpen = 2000; // milliseconds for the browser to give out what it keeps
  const kHushed = 60000; // milliseconds without a sound for whoever has heard it (cli/bell.cpp)
  const kPatience = 500; // milliseconds for a save: an instruction waits no longer
  const kDouble = 350; // milliseconds after a new screen in which a touch was meant for the one before

  let language = document.documentElement.lang === 'es' ? 'es' : 'en';
  let engine = null; // { open, call }
  let known = null; // what the engine said of the plan and the child
  let plan = data; // the plan that is walked; another one than the page's own after a resume
  let journal = null;
  let episode = null; // { id, record, kept: how many lines are kept, waiting: lines not kept yet }
  let saving = true;
  let screen = null; // the last screen of the engine
  let drawn = '', drawnAt = 0; // what stands there, and since when
  let panel = null; // what covers the walk for a moment: numbers, pictures, about
  let note = '';
  let ringing = false;
  let silent = false; // a touch has not brought the sound
  let hushed = { screen: -1, until: 0 };
  let longest = 0; // seconds of the running wait when it was first seen
  let openPad = -1; // which of the pads that open by a button
  let pads = [];
  let text = null; // where words are typed
  let typedOn = 0; // the number of the screen that these belong to

  const own = function () { return known[language]; };
  const before = window.rushlightBefore({ words, own, known: function () { return known; }, language: function () { return language; } });
  const panels = window.rushlightPanels({
    words, cover, uncover, own, alarm,
    known: function () { return known; },
    plan: function () { return plan; },
    journal: function () { return journal; }
  });
  const covered = function () { return Boolean(panel) || Boolean(screen && screen.phase === 'menu'); };
  const back = window.rushlightBack({
    most: function () { return (screen && screen.phase !== 'ended' ? 1 : 0) + (covered() ? 1 : 0); },
    close: function () { const was = covered(); if (panel) uncover(); else if (was) backToStep(); return was; },
    warn: function () { note = words().leave; drawn = ''; show(ask({ do: 'look' })); window.scrollTo(0, 0); }
  });
  const [place, card, bar] = ['main', 'card', 'bar'].map(function (id) { return document.getElementById(id); });

  function words() { return window.rushlightWords[language]; }
  function now() { return window.rushlightMoment(new Date()); }
  function ticks() { return Math.floor(performance.now() / 1000); }

  function ask(request) {
    return JSON.parse(engine.call(JSON.stringify(Object.assign({ at: now(), ticks: ticks() }, request))));
  }

  // ---------- keeping ----------

  async function keepNow(episode) {
    if (!episode || !journal || (episode.id !== null && episode.waiting.length === 0)) return;
    const lines = episode.waiting.slice();
    if (episode.id === null) episode.record.id = episode.id = await journal.begin(episode.record, plan, lines);
    else await journal.append(episode.id, episode.kept, lines);
    episode.kept += lines.length;
    episode.waiting.splice(0, lines.length);
  }
  let keeping = Promise.resolve();
  // Lines are kept one after the other. A save that fails or takes long never delays what is to be done.
  async function keep(reply) {
    const mine = episode;
    if (!mine) return;
    mine.waiting.push(...reply.lines);
    const before = saving;
    let failed = null;
    keeping = keeping.then(function () { return keepNow(mine); }).then(function () { saving = journal !== null; }, function (error) { failed = error; saving = false; });
    await Promise.race([keeping, later(kPatience)]);
    if (failed && failed.name === 'ConstraintError') return otherWindowWentOn();
    if (saving !== before && episode === mine && screen) show(ask({ do: 'look' }));
  }
  async function otherWindowWentOn() {
    saving = true;
    note = words().otherTab;
    const open = await journal.unfinished(known.child);
    if (open) await resume(open);
  }

  // ---------- the walk ----------

  function took(reply) {
    if (reply.error) { note = say(words().wentWrong, reply.error.sentence); drawn = ''; return false; }
    return true;
  }

  async function begin(protocol) {
    alarm.allow();
    const past = journal ? await journal.past(known.child, Date.now(), data.sum).catch(function () { return {}; }) : {};
    const open = journal ? await journal.unfinished(known.child).catch(function () { return null; }) : null;
    if (open) await journal.end(open.id, now()).catch(function () {});
    const reply = ask(Object.assign({ do: 'begin', protocol, language }, past));
    if (!took(reply)) return home();
    const version = known.protocols.find(function (each) { return each.id === protocol; }).version;
    episode = { id: null, kept: 0, waiting: [], record: { child: known.child, set: known.set, protocol, version, began: reply.began, plan: plan.sum } };
    typedOn = 0;
    alarm.ring();
    panel = null;
    show(reply);
    back.deepen();
    await keep(reply);
  }

  async function resume(open) {
    let wanted = data;
    if (open.plan !== data.sum) wanted = await journal.plan(open.plan);
    if (!wanted) return false;
    const opened = openPlan(wanted);
    if (opened.error) return failed(say(words().failNight, opened.error.sentence), open);
    const lines = await journal.linesOf(open.id);
    const reply = ask({ do: 'resume', protocol: open.protocol, began: open.began, lines });
    if (reply.error) return failed(say(words().failNight, reply.error.sentence), open);
    typedOn = 0;
    episode = { id: open.id, record: open, kept: lines.length, waiting: [] };
    panel = null;
    show(reply);
    back.deepen();
    return true;
  }

  async function touch(typed) {
    if (performance.now() - drawnAt < kDouble) return;
    alarm.allow();
    quiet();
    note = '';
    const mine = episode;
    const reply = ask({ do: 'tap', screen: screen.number, typed });
    if (!took(reply)) return show(ask({ do: 'look' }));
    openPad = -1;
    if (reply.command === 'beep') alarm.ring();
    const kept = reply.lines.length > 0 ? keep(reply) : Promise.resolve();
    await Promise.race([kept, later(kPatience)]);
    if (episode !== mine) return; // another window went on, and its screen stands here
    if (reply.command === 'leave') return leave(reply);
    show(reply);
    back.deepen();
  }
  function backToStep() { quiet(); openPad = -1; show(ask({ do: 'back' })); }

  async function leave(reply) {
    alarm.keepAwake(false);
    await Promise.race([keeping, later(kPatience)]);
    const left = episode;
    if (reply.ended && left.id !== null && journal) await journal.end(left.id, reply.last).catch(function () {});
    episode = null;
    screen = null;
    typedOn = 0;
    openPlan(data);
    if (!reply.ended && left.id !== null && journal) openScreen(left.record, reply.last);
    else home();
  }

  // ---------- sound ----------

  function ringFor(reply) {
    ringing = true;
    alarm.ring();
    alarm.notify(reply.screen.word + ': ' + reply.screen.who, reply.screen.live ? '' : words().alarmNow);
  }
  function quiet() { ringing = false; }
  // Whoever shows a child the pictures, or a number, keeps them; the bell comes above.
  function ringOverPanel() {
    const there = place.querySelector('.alarm');
    if (there && !ringing) there.remove();
    if (there || !ringing) return;
    place.prepend(bell(words(), silent, hush));
    window.scrollTo(0, 0);
  }
  function turnSoundOn() {
    alarm.tryIt().then(function (sounds) {
      silent = !sounds;
      note = silent && !screen.live ? words().noSoundYet : '';
      drawn = '';
      look();
    });
  }
  // Somebody is there and looks: quiet for a while on this screen, as after a key in the terminal. A new one rings at once.
  function hush() {
    quiet();
    hushed = { screen: screen.number, until: performance.now() + kHushed };
    alarm.allow();
    drawn = '';
    show(ask({ do: 'look' }));
  }

  // Once a second: what passed by itself.
  function look() {
    if (!engine || !screen || !episode) return;
    if (episode.waiting.length > 0 && ticks() % 5 === 0) keep({ lines: [] });
    const reply = ask({ do: 'look' });
    if (reply.error) return;
    if (reply.lines.length > 0) keep(reply);
    const rings = reply.rings && !(reply.screen.number === hushed.screen && performance.now() < hushed.until);
    if (rings) ringFor(reply);
    show(reply, rings);
  }

  // ---------- drawing ----------

  function put(children, focus) {
    place.replaceChildren(...children.filter(function (child) { return child !== null && child !== undefined; }));
    card.hidden = true;
    drawnAt = performance.now();
    if (!focus) return;
    window.scrollTo(0, 0);
    const title = place.querySelector('h1');
    if (title) title.focus({ preventScroll: true });
  }
  function show(reply, byTime) {
    if (!took(reply)) { if (screen) drawWalk(false); return; }
    const before = screen;
    screen = reply.screen;
    change(screen.language);
    alarm.keepAwake(screen.phase !== 'ended');
    if (panel) return ringOverPanel();
    const same = JSON.stringify(Object.assign({}, screen, { live: screen.live ? { until: screen.live.until } : null, when: '' })) + ringing + openPad + saving + alarm.canSound() + silent;
    if (same !== drawn) {
      drawn = same;
      drawWalk(!before || before.number !== screen.number || byTime);
    }
    const who = place.querySelector('.lamp .who');
    if (who) who.textContent = screen.who + ', ' + screen.when;
    longest = screen.live ? Math.max(longest, screen.live.seconds) : 0;
    drawClock(screen.live, longest);
    drawAwake();
  }

  function drawWalk(focus) {
    const shown = screen;
    const lines = linesOf(shown, words(), touch);
    if (typedOn !== shown.number) { // what is half typed stays when only the alarm has changed the screen
      typedOn = shown.number;
      pads = shown.pads.map(function (spec) { return window.rushlightPad(spec, words(), say, h, language, touch); });
      text = shown.field > 0 ? field(shown, words(), touch) : null;
    }
    const open = shown.pads.findIndex(function (spec, place) { return spec.open || place === openPad; });
    const onMain = function () { touch(shown.main.by); };
    const main = shown.main ? button(shown.main.text, onMain, 'main') : null;
    if (shown.leftAt && shown.phase === 'ended') { put(panels.ended(shown, episode, onMain), focus); return drawBar(); }
    const sound = alarm.canSound() || silent || shown.phase === 'ended' ? null : button(words().soundOff, turnSoundOn, 'warn');
    const call = shown.call && shown.phase !== 'menu' || shown.call && !shown.more ? shown.call : null;
    put([
      lamp(shown.urgency, shown.word, shown.who + ', ' + shown.when),
      ringing ? bell(words(), silent, hush) : null,
      title(unbrokenIn(shown.headline, own().contacts)),
      saving ? null : h('p', { class: 'warn', role: 'status' }, words().notSaved),
      note ? h('p', { class: 'warn', role: 'status' }, note) : null,
      shown.said ? h('p', { class: 'said', role: 'status' }, shown.said) : null,
      call ? telButton(call, say(words().call, call.who + ': '), unbroken(call.number)) : null,
      sound,
      clockFace(shown.live, words(), silent),
      ...belowDeeds(lines.parts, main),
      open >= 0 ? pads[open] : null,
      text,
      ...shown.pads.map(function (spec, place) {
        return spec.open || place === openPad ? null : h('div', { class: 'stack' }, button(spec.text, function () { openPad = place; drawn = ''; show(ask({ do: 'look' })); pads[place].scrollIntoView({ block: 'center' }); }));
      }),
      keysOf(shown.keys, touch, backToStep),
      shown.live && shown.phase !== 'menu' ? h('p', { class: 'soft', id: 'awake' }) : null,
      shown.more ? panels.extras(episode) : null,
      ...lines.after
    ], focus);
    drawBar();
    settle(place, bar, focus || openPad >= 0);
  }

  function drawAwake() {
    const awake = document.getElementById('awake');
    if (awake) awake.textContent = alarm.isAwake() ? words().awake : words().notAwake;
  }

  function drawBar() {
    const worse = screen && screen.keys.find(function (each) { return each.kind === 'worse'; });
    bar.hidden = false;
    bar.setAttribute('aria-label', words().always);
    bar.replaceChildren(...[
      worse ? button(worse.text, function () { panel = null; touch('w'); }, 'worse') : null,
      button(words().callShort, panels.numbers, 'tels', 'tel')
    ].filter(Boolean));
  }

  // ---------- beside the walk ----------

  function cover(children) {
    panel = true;
    bar.hidden = !screen;
    put(children, true);
    if (screen) drawBar();
    ringOverPanel();
    back.deepen();
  }
  function uncover() {
    panel = null;
    drawn = '';
    if (screen) show(ask({ do: 'look' })); else home();
  }

  // ---------- before the walk ----------

  function change(to) {
    language = to;
    document.documentElement.lang = to;
  }

  function putBefore(children) {
    panel = null;
    drawn = '';
    put(children, true);
    drawBar();
  }
  function home() {
    putBefore(before.home(note, {
      begin: function (protocol) { note = ''; begin(protocol); },
      pictures: panels.pictures,
      about: panels.about,
      tryAlarm: panels.tryAlarm,
      otherLanguage: function () { change(language === 'es' ? 'en' : 'es'); home(); }
    }));
  }

  function askAboutOpen(open, lines) {
    const last = window.rushlightJournal.lastSaid(open, lines);
    return Date.now() - Date.parse(last) < kOld ? resume(open) : openScreen(open, last);
  }
  function openScreen(open, last) {
    putBefore(before.stillOpen(open, last, {
      goOn: function () { alarm.allow(); resume(open); },
      anew: function () { journal.end(open.id, now()).catch(function () {}).then(home); }
    }));
    return true;
  }

  function failed(why, open) {
    place.replaceChildren(...before.failed(why, open && journal ? {
      save: async function (touched) { panels.saveCopy(touched, open, open.id, await journal.plan(open.plan)); },
      anew: function () { journal.end(open.id, now()).catch(function () {}).then(function () { openPlan(data); home(); }); }
    } : null));
    document.getElementById('card-why').hidden = true;
    card.hidden = false;
    return true;
  }

  function openPlan(wanted) {
    plan = wanted;
    const opened = JSON.parse(engine.open(wanted.model, wanted.child, now().slice(0, 10)));
    if (!opened.error) known = opened;
    return opened;
  }

  async function goOnWithOpen() {
    const open = journal ? await journal.unfinished(known.child).catch(function () { return null; }) : null;
    return open ? askAboutOpen(open, await journal.linesOf(open.id)) : false;
  }
  // The page does not wait for a browser that is slow to give out what it keeps, and takes it when it comes.
  function cameLate(opened) {
    if (!opened) return;
    journal = opened;
    if (episode) return keep({ lines: [] });
    saving = true;
    goOnWithOpen();
  }

  async function start() {
    if (!data) return;
    if ('serviceWorker' in navigator && location.protocol.startsWith('http')) navigator.serviceWorker.register('service-worker.js').catch(function () {});
    const opening = window.rushlightJournal.open().catch(function () { return null; });
    let made;
    try {
      made = await window.createEngine();
    } catch (error) {
      return failed(words().failEngine);
    }
    engine = window.rushlightCalls(made);
    const opened = openPlan(data);
    if (opened.error) return failed(say(words().failPlan, opened.error.sentence));
    change(known.language);
    document.title = known.child;
    journal = await Promise.race([opening, later(kPatienceToOpen).then(function () { return null; })]);
    saving = journal !== null;
    if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(function () {});
    if (!await goOnWithOpen()) home();
    if (!journal) opening.then(cameLate);
    setInterval(look, 1000);
    document.addEventListener('visibilitychange', function () { if (document.visibilityState === 'visible') look(); });
    document.addEventListener('keydown', function (event) {
      if (panel || !screen) return;
      const place = screen.pads.findIndex(function (spec, at) { return spec.open || at === openPad; });
      if (place >= 0 && pads[place] && pads[place].take(event)) event.preventDefault();
    });
  }
  start();
})();
