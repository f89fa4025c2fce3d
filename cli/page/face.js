// Elements of the page: how an urgency, an action, a choice, a countdown looks. Nothing here knows what comes next.
'use strict';
window.rushlightFace = (function () {
  const drawing = window.rushlightDrawings;
  const { say, h, later } = window.rushlightElements;
  const kMostCovered = 0.3; // of the height of the screen, by what stays in view at the bottom

  function button(text, onclick, kind, picture) {
    return h('button', { type: 'button', class: kind || null, onclick }, picture ? drawing(picture) : null, h('span', {}, text));
  }
  // A number is dialled only as digits; the engine has taken everything else out.
  function telButton(contact, ...shown) {
    if (!/^\+?[0-9]{2,}$/.test(contact.tel)) return null;
    // Red is for the emergency services alone: of several red ones a tired hand takes the wrong one.
    return h('a', { class: contact.kind === 'emergency' ? 'button tel gravest' : 'button tel', href: 'tel:' + contact.tel },
      drawing(contact.picture || 'tel'), h('span', {}, ...shown));
  }
  // A number stays on one line: half a number is a wrong one.
  function unbroken(number) {
    const shown = h('span', { class: 'number' }, number.replace(/ /g, '\u00a0'));
    shown.style.setProperty('--letters', number.length);
    return shown;
  }
  function unbrokenIn(text, contacts) {
    return contacts.filter(function (contact) { return contact.tel; }).reduce(function (whole, contact) { return whole.split(contact.number).join(contact.number.replace(/ /g, '\u00a0')); }, text);
  }
  // A message stands beside what was touched for it, and is brought into view.
  function tellBeside(touched, text) {
    document.querySelectorAll('.beside-it').forEach(function (each) { each.remove(); });
    const told = h('p', { class: 'warn beside-it', role: 'status' }, text);
    touched.after(told);
    told.scrollIntoView({ block: 'nearest' });
  }

  function title(text) { return h('h1', { tabindex: '-1' }, text); }

  function lamp(urgency, word, who) {
    const strokes = h('span', { class: 'strokes', 'aria-hidden': 'true' });
    const count = ['home', 'clinic', 'clinic-now', 'emergency'].indexOf(urgency) + 1;
    for (let at = 0; at < count; ++at) strokes.append(h('i', {}));
    return h('div', { class: 'lamp', 'data-urgency': urgency }, strokes,
      h('div', {}, h('p', { class: 'word' }, word), h('p', { class: 'who' }, who)));
  }

  function deed(line, phase, words, touch) {
    const text = h('div', {}, h('span', {}, line.text));
    if (line.by && phase === 'act') {
      text.append(h('br', {}), h('button', { type: 'button', onclick: function () { touch(line.by); }, 'aria-label': words.notSo + ' ' + line.text }, words.notSo));
    }
    return h('li', { class: 'deed' }, drawing(line.to), text);
  }

  // Lines in their order; what is chosen from stands together, what can wait stands last.
  function linesOf(shown, words, touch) {
    const parts = [], after = [];
    let stack = null, deeds = null, items = null;
    for (const line of shown.lines) {
      const choice = line.by && !line.to;
      if (!choice) stack = null;
      if (!line.to) deeds = null;
      if (!line.item || line.to) items = null;
      if (choice) {
        if (!stack) parts.push(stack = h('div', { class: 'stack', role: 'group' }));
        stack.append(button(line.text, function () { touch(line.by); }));
      } else if (line.to) {
        if (!deeds) parts.push(deeds = h('ul', { class: 'stack', role: 'list' }));
        deeds.append(deed(line, shown.phase, words, touch));
      } else if (line.item) {
        if (!items) (line.later ? after : parts).push(items = h('ul', line.later ? { class: 'later' } : {}));
        items.append(h('li', {}, line.text));
      } else if (line.later) {
        after.push(h('p', { class: 'later' }, line.text));
      } else {
        parts.push(h('p', {}, line.text));
      }
    }
    return { parts, after };
  }

  // A rush that burns down beside the time that is left.
  function clockFace(live, words, silent) {
    if (!live) return null;
    return h('div', { class: 'clock' }, h('p', { class: 'until' }, words.timeLeft),
      h('p', { class: 'left', id: 'left', role: 'timer', 'aria-live': 'off' }, live.left),
      h('p', { class: 'until' }, say(words.until, live.until) + ' \u00b7 ' + live.label),
      h('div', { class: 'rush', 'aria-hidden': 'true' }, h('i', { id: 'rush' })),
      silent ? h('p', { class: 'warn' }, say(words.noSound, live.until))
        : h('p', { class: 'soft' }, words.alarmHere + ' ' + say(words.alarmDoubt, live.until)));
  }
  function drawClock(live, longest) {
    const left = document.getElementById('left');
    if (!left || !live) return;
    if (left.textContent !== live.left) left.textContent = live.left;
    document.getElementById('rush').style.transform = 'scaleX(' + (longest > 0 ? live.seconds / longest : 0) + ')';
  }

  function bell(words, silent, hush) {
    const here = h('button', { type: 'button', class: 'main', onclick: hush }, h('span', {}, words.stopAlarm, silent ? null : h('span', { class: 'more' }, ' ' + words.stopSound)));
    return h('div', { class: 'alarm', role: 'alert' }, h('strong', {}, words.alarmNow), here);
  }

  // `main` of a step stands right below the deeds that it records.
  function belowDeeds(parts, button) {
    const last = parts.findLastIndex ? parts.findLastIndex(isDeeds) : parts.map(isDeeds).lastIndexOf(true);
    return last < 0 ? [...parts, button] : [...parts.slice(0, last + 1), button, ...parts.slice(last + 1)];
  }
  function isDeeds(part) { return part.querySelector('.deed') !== null; }

  // Once it is drawn: the button that leads on is in view however long the step is, unless it would cover too much; and so is all of a pad.
  function settle(main, bar, moves) {
    const covered = getComputedStyle(bar).position === 'sticky' ? bar.offsetHeight : 0;
    document.documentElement.style.setProperty('--bar', covered + 'px');
    const leads = main.querySelector(':scope > .main');
    if (leads) leads.classList.toggle('pinned', leads.offsetHeight + covered < window.innerHeight * kMostCovered);
    const pad = main.querySelector(':scope > .pad');
    if (!pad || !moves) return;
    const box = pad.getBoundingClientRect();
    const below = box.bottom - (window.innerHeight - covered);
    if (below > 0) window.scrollBy(0, Math.min(below, box.top));
  }

  // What can be said on every screen; "something got worse" has its place at the bottom.
  function keysOf(all, touch, backToStep) {
    const keys = h('div', { class: 'keys' });
    for (const key of all) {
      if (key.kind === 'worse') continue;
      keys.append(button(key.text, key.kind === 'back' ? backToStep : function () { touch(key.by); }));
    }
    return keys;
  }

  function field(shown, words, touch) {
    const input = shown.field > 100 ? h('textarea', { rows: '3', maxlength: String(shown.field), 'aria-label': words.whatTheySaid })
      : h('input', { maxlength: String(shown.field), 'aria-label': words.name, autocomplete: 'off' });
    const send = function () {
      const text = input.value.replace(/[\u0000-\u001f\u007f-\u009f]+/g, ' ').trim();
      if (text !== '') touch(text);
    };
    input.addEventListener('keydown', function (event) {
      if (event.key === 'Enter' && shown.field <= 100) send();
    });
    return h('div', { class: 'stack' }, input, button(words.send, send, 'main'));
  }

  return { say, h, later, button, telButton, unbroken, unbrokenIn, title, lamp, linesOf, clockFace, drawClock, field, keysOf, tellBeside, bell, belowDeeds, settle };
})();
