// The numbers as fields. It knows what was typed and where; what a number may be is the engine's alone.
'use strict';
window.rushlightClinicForm = function (deps) {
  const { say, h } = window.rushlightElements;
  const words = deps.words;
  let fields = []; // one for each value
  const typed = new Map(); // by the field's name: for each part its text, or null where nobody typed
  let count = null, find = null, groups = [];

  // What a browser lets through and no text of ours may hold.
  function plain(text) { return text.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, '?'); }
  function isTyped(field) { const parts = typed.get(field.name); return parts !== undefined && parts.some(function (part) { return part !== null; }); }

  function onInput(field, at) {
    const parts = typed.get(field.name) || field.parts.map(function () { return null; });
    const text = plain(field.inputs[at].value);
    // As it was is as if nobody had typed, unless the other part is another one now.
    parts[at] = text;
    if (parts.every(function (part, each) { return part === null || part === field.parts[each].text; })) typed.delete(field.name);
    else typed.set(field.name, parts);
    deps.changed();
  }
  function putBack(field) {
    typed.delete(field.name);
    field.inputs.forEach(function (input, at) { input.value = field.parts[at].text; });
    field.inputs[0].focus();
    deps.changed();
  }
  function putAllBack() {
    typed.clear();
    fields.forEach(function (field) { field.inputs.forEach(function (input, at) { input.value = field.parts[at].text; }); });
    deps.changed();
  }

  function valueRow(number, value, place) {
    const id = 'field-' + place;
    const field = { name: value.field, label: number.label + (value.band ? ', ' + value.band : ''), parts: value.parts, inputs: [], units: [] };
    field.told = h('div', { class: 'told', id: id + '-told' });
    const row = h('div', { class: 'value' });
    if (value.band) row.append(h('span', { class: 'band' }, value.band));
    value.parts.forEach(function (part, at) {
      const input = h('input', {
        type: 'text', autocomplete: 'off', spellcheck: 'false', autocapitalize: 'off', maxlength: '40', 'data-field': value.field, 'data-part': String(at),
        'aria-label': (value.band ? value.band + ', ' : '') + part.unit || number.label, 'aria-describedby': id + '-told ' + 'allowed-' + number.name,
        inputmode: /^[0-9.]+$/.test(part.text) ? 'decimal' : 'text', oninput: function () { onInput(field, at); }
      });
      const parts = typed.get(value.field);
      input.value = parts && parts[at] !== null ? parts[at] : part.text;
      const unit = h('span', { class: 'unit', 'aria-hidden': 'true' }, part.unit);
      field.inputs.push(input);
      field.units.push(unit);
      row.append(h('span', { class: 'part' }, input, unit));
    });
    field.back = h('button', { type: 'button', class: 'small', hidden: '', 'aria-label': say(words().putBackWhat, field.label), onclick: function () { putBack(field); } }, words().putBack);
    row.append(field.back);
    field.box = h('div', { class: 'field' }, row, field.told);
    fields.push(field);
    return field.box;
  }
  function numberBox(number) {
    const rows = number.values.map(function (value) { return valueRow(number, value, fields.length); });
    const box = h('fieldset', { class: 'number' },
      h('legend', {}, number.label),
      ...rows,
      h('p', { class: 'soft', id: 'allowed-' + number.name }, say(words().allowed, number.allowed.join(', '))),
      number.note ? h('p', { class: 'soft' }, number.note) : null,
      h('details', {}, h('summary', { 'aria-label': words().from + ': ' + number.label }, words().from),
        h('p', {}, say(words().source, number.source)),
        ...number.values.map(function (value) { return h('p', {}, say(words().where, (value.band ? value.band + ': ' : '') + value.where)); }),
        h('p', {}, say(words().name, number.name))));
    return { box, number, text: [number.label, number.name, number.note || ''].concat(number.values.map(function (value) { return value.band || ''; })).join(' ').toLowerCase() };
  }

  function filter() {
    const wanted = find.value.trim().toLowerCase();
    let shown = 0, all = 0;
    groups.forEach(function (group) {
      let any = false;
      group.numbers.forEach(function (number) {
        const fits = number.text.includes(wanted);
        number.box.hidden = !fits;
        any = any || fits;
        shown += fits ? 1 : 0;
        ++all;
      });
      group.section.hidden = !any;
    });
    count.textContent = say(words().found, String(shown), String(all));
  }

  function draw(form) {
    fields = [];
    const wanted = find ? find.value : '';
    groups = form.groups.map(function (group) {
      const numbers = group.numbers.map(numberBox);
      const section = h('div', {}, h('h3', {}, group.title), ...numbers.map(function (each) { return each.box; }));
      return { section, numbers };
    });
    find = h('input', { type: 'search', id: 'find', autocomplete: 'off', 'aria-describedby': 'find-how', oninput: filter });
    find.value = wanted;
    count = h('p', { class: 'soft', role: 'status' });
    filter();
    return h('section', { id: 'numbers', 'aria-labelledby': 'numbers-title' },
      h('h2', { id: 'numbers-title', tabindex: '-1' }, words().form),
      h('div', { class: 'find' }, h('label', { for: 'find' }, words().find), find, h('p', { class: 'soft', id: 'find-how' }, words().findHow), count),
      ...groups.map(function (group) { return group.section; }),
      h('p', { class: 'soft' }, form.count + ' ' + form.decides));
  }

  function shown(parts) { return parts.map(function (part) { return part.text + (part.unit ? ' ' + part.unit : ''); }).join(', '); }

  // In one place what was typed anywhere, with the way to its field.
  function mine(changes, refusals) {
    const lines = fields.filter(function (field) { return changes.has(field.name) || refusals.has(field.name); }).map(function (field) {
      const change = changes.get(field.name);
      const text = refusals.has(field.name) ? words().mineRefused : say(words().mineChanged, shown(change.before), shown(change.parts));
      const goes = function () {
        find.value = '';
        filter();
        field.inputs[0].focus();
      };
      return h('li', {}, h('button', { type: 'button', class: 'small', onclick: goes }, field.label), ' ' + text);
    });
    return lines.length === 0 ? [] : [h('h3', {}, words().mine), h('ul', { class: 'plain mine' }, ...lines)];
  }

  // What the engine made of it: each field says whether it is changed, worked out or refused.
  function tell(plan) {
    const changes = new Map(plan.changes.map(function (change) { return [change.field, change]; }));
    const refusals = new Map();
    plan.refused.forEach(function (refusal) { refusals.set(refusal.field, (refusals.get(refusal.field) || []).concat(refusal.told)); });
    fields.forEach(function (field) {
      const change = changes.get(field.name), refusal = refusals.get(field.name), parts = typed.get(field.name);
      const notes = [];
      field.inputs.forEach(function (input, at) {
        if (!parts || parts[at] === null) input.value = change ? change.parts[at].text : field.parts[at].text;
        input.setAttribute('aria-invalid', refusal ? 'true' : 'false');
        field.units[at].hidden = parts !== undefined && parts[at] !== null && /\p{L}/u.test(parts[at]); // somebody wrote a unit of their own
      });
      if (change) notes.push(h('p', {}, say(words().was, shown(change.before))));
      if (change && change.proposed !== undefined) notes.push(h('p', {}, say(words().workedOut, shown([change.parts[change.proposed]]))));
      (refusal || []).forEach(function (told) {
        notes.push(h('p', { class: 'bad' }, words().notTaken + ' ', h('span', { lang: 'en' }, told.sentence)));
        if (told.because) notes.push(h('p', {}, words().because + ' ', h('span', { lang: 'en' }, told.because)));
        if (told.try) notes.push(h('p', {}, words().tryThis + ' ', h('span', { lang: 'en' }, told.try)));
      });
      field.told.replaceChildren(...notes);
      field.back.hidden = !isTyped(field);
      field.box.className = 'field' + (refusal ? ' refused' : change ? ' changed' : '');
    });
    const known = new Set(fields.map(function (field) { return field.name; }));
    return { general: plan.refused.filter(function (refusal) { return !known.has(refusal.field); }), mine: mine(changes, refusals) };
  }

  return {
    draw, tell, putAllBack,
    isTyped: function () { return typed.size > 0; },
    typed: function () { return Array.from(typed, function ([field, parts]) { return { field, parts }; }); }
  };
};
