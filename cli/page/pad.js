// A number pad that knows the unit. What it types is what the engine would be told at a keyboard: "52", "4.2 mmol/L", "40 min", "LO".
'use strict';
window.rushlightPad = (function () {
  const kMostLetters = 6;

  // `words`: of the page; `say`: fills blanks; `h`: makes an element; `typed`: gets what was entered.
  function pad(spec, words, say, h, language, typed) {
    let text = '';
    let other = Boolean(spec.other && spec.other.first); // what is typed a second time is typed in its unit
    const mark = language === 'es' ? ',' : '.';
    const shown = h('span', {});
    const unit = h('small', {});
    const output = h('output', { 'aria-live': 'polite' }, shown, unit);
    const point = h('button', { type: 'button', onclick: function () { press('.'); } }, mark);

    const has = function () { return other ? spec.other.decimal : spec.decimal; };
    const unitNow = function () { return other ? spec.other.unit : spec.ends.length === 1 ? spec.ends[0].unit : ''; };

    function draw() {
      shown.textContent = text.replace('.', mark) || '\u2013';
      unit.textContent = unitNow();
      output.setAttribute('aria-label', say(words.typedSoFar, text.replace('.', mark) || words.nothingTyped) + ' ' + unitNow());
      point.disabled = !has();
      point.hidden = false;
    }
    function press(key) {
      if (key === '.' && (!has() || text.includes('.') || text === '')) return;
      if (key === 'del') text = text.slice(0, -1);
      else if (text.length < kMostLetters) text = text === '0' && key !== '.' ? key : text + key;
      draw();
    }
    function enter(end) {
      if (text === '' || text.endsWith('.')) return;
      const behind = other ? spec.other.behind : end.behind;
      const told = text + behind;
      text = '';
      draw();
      typed(spec.front + told);
    }
    const digit = function (key) {
      return h('button', { type: 'button', onclick: function () { press(key); } }, key);
    };

    const grid = h('div', { class: 'grid' }, ...['1', '2', '3', '4', '5', '6', '7', '8', '9'].map(digit), point, digit('0'),
      h('button', { type: 'button', 'aria-label': words.clear, onclick: function () { press('del'); } }, '\u232b'));
    const ends = h('div', { class: 'ends' }, ...spec.ends.map(function (end) {
      const label = spec.ends.length === 1 ? end.enter : end.unit;
      return h('button', { type: 'button', class: 'main', onclick: function () { enter(end); } }, label);
    }));
    const beside = h('div', { class: 'beside' });
    for (const name of spec.marks) {
      beside.append(h('button', { type: 'button', onclick: function () { typed(spec.front + name); } }, name));
    }
    if (spec.none) beside.append(h('button', { type: 'button', onclick: function () { typed(spec.none.by); } }, spec.none.text));
    if (spec.other) {
      const change = h('button', { type: 'button' }, '');
      const label = function () { change.textContent = words.unitSwitch + ': ' + (other ? spec.ends[0].unit : spec.other.unit); };
      change.onclick = function () { other = !other; text = ''; label(); draw(); };
      label();
      beside.append(change);
    }
    const whole = h('div', { class: 'pad', role: 'group', 'aria-label': spec.text }, output, h('div', { class: 'board' }, grid, ends), beside);
    draw();
    // A keyboard types into the pad wherever the focus is.
    whole.take = function (event) {
      if (event.ctrlKey || event.metaKey || event.altKey || event.target.matches('input, textarea')) return false;
      if (/^[0-9]$/.test(event.key)) press(event.key);
      else if (event.key === '.' || event.key === ',') press('.');
      else if (event.key === 'Backspace') press('del');
      else if (event.key === 'Enter' && text !== '' && !(event.target instanceof HTMLButtonElement && event.target.closest('.pad') !== whole)) enter(spec.ends[0]);
      else return false;
      return true;
    };
    return whole;
  }
  return pad;
})();
