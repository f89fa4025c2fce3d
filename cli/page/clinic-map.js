// The map of one step. The engine draws it; here is chosen which one. It is shown as a picture, in which nothing can run or load.
'use strict';
window.rushlightClinicMap = function (deps) {
  const { say, h } = window.rushlightElements;
  const words = deps.words;
  let protocols = [], chosen = null, picked = false, address = null, box = null;

  function select(id, label, options, value, onchange) {
    const element = h('select', { id, onchange: function () { onchange(element.value); } },
      ...options.map(function (each) { return h('option', { value: each.value }, each.text); }));
    element.value = value;
    return h('div', { class: 'choice' }, h('label', { for: id }, label), element);
  }
  function stepsOf(name) { return protocols.find(function (each) { return each.protocol === name; }).steps; }
  function readsOf(choice) { return stepsOf(choice.protocol).find(function (each) { return each.step === choice.step; }).reads; }
  function has(reads, name) { return reads.some(function (each) { return each.name === name; }); }
  function withAxes(protocol, step, wanted) {
    const reads = readsOf({ protocol, step });
    const across = has(reads, wanted) ? wanted : has(reads, 'glucose') ? 'glucose' : reads[0].name;
    const other = reads.find(function (each) { return each.name !== across; });
    return { protocol, step, across, down: other ? other.name : '' };
  }
  function pick(choice) {
    chosen = choice;
    picked = true;
    drawChoices();
    show();
  }
  function drawChoices() {
    const reads = readsOf(chosen);
    const subjects = reads.map(function (each) { return { value: each.name, text: each.name + (each.meaning ? ': ' + each.meaning : '') }; });
    const focused = document.activeElement ? document.activeElement.id : '';
    box.choices.replaceChildren(
      select('map-protocol', words().mapProtocol, protocols.map(function (each) { return { value: each.protocol, text: each.title }; }), chosen.protocol,
        function (value) { pick(withAxes(value, stepsOf(value)[0].step)); }),
      select('map-step', words().mapStep, stepsOf(chosen.protocol).map(function (each) { return { value: each.step, text: each.step }; }), chosen.step,
        function (value) { pick(withAxes(chosen.protocol, value)); }),
      select('map-across', words().mapAcross, subjects, chosen.across,
        function (value) { pick(Object.assign({}, chosen, { across: value, down: chosen.down === value ? '' : chosen.down })); }),
      select('map-down', words().mapDown, [{ value: '', text: words().mapNothing }].concat(subjects.filter(function (each) { return each.value !== chosen.across; })), chosen.down,
        function (value) { pick(Object.assign({}, chosen, { down: value })); }));
    const again = focused.startsWith('map-') ? document.getElementById(focused) : null;
    if (again) again.focus();
  }

  async function show() {
    const asked = chosen;
    const answer = await deps.ask({ do: 'map', protocol: asked.protocol, map: asked.step + ':' + asked.across + (asked.down ? ',' + asked.down : '') });
    if (asked !== chosen || !box) return;
    if (answer.error) {
      box.picture.replaceChildren(h('p', {}, say(words().mapFailed, answer.error.sentence)));
      return;
    }
    const old = address;
    address = URL.createObjectURL(new Blob([answer.svg], { type: 'image/svg+xml' }));
    const image = h('img', { src: address, alt: answer.title + ': ' + asked.step + ', ' + asked.across + (asked.down ? ', ' + asked.down : ''), class: 'map' });
    image.onload = function () { if (old) URL.revokeObjectURL(old); };
    box.picture.replaceChildren(h('div', { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': words().mapScroll }, image),
      h('details', {}, h('summary', {}, words().mapTold), h('p', { lang: 'en' }, answer.told)));
  }

  function draw(all) {
    protocols = all.filter(function (each) { return each.steps.length > 0; });
    box = { choices: h('div', { class: 'choices' }), picture: h('div', {}) };
    const section = h('section', { 'aria-labelledby': 'map-title', id: 'map', tabindex: '-1' }, h('h2', { id: 'map-title' }, words().map), h('p', { class: 'soft' }, words().mapHow), box.choices, box.picture);
    if (protocols.length === 0) return section;
    const first = protocols.find(function (each) { return each.protocol === 'low'; }) || protocols[0];
    if (!chosen) chosen = withAxes(first.protocol, first.steps[0].step);
    drawChoices();
    return section;
  }
  // The step in which a changed number decides, unless somebody chose another.
  function lead(shows) {
    if (picked || !shows || !chosen || !stepsOf(shows.protocol).some(function (known) { return known.step === shows.step; })) return;
    if (chosen.protocol === shows.protocol && chosen.step === shows.step) return;
    chosen = withAxes(shows.protocol, shows.step, shows.across);
    drawChoices();
  }

  return { draw, show, lead };
};
