// What the engine says of a set with other numbers: what changes for a child, and what the check finds. Its words, set for a page.
'use strict';
window.rushlightClinicTold = function (words) {
  const { say, h } = window.rushlightElements;
  const kOpen = 2; // so many places stand open below a change
  const kFirst = 5; // and so many changes of one kind

  function list(texts) { return h('ul', {}, ...texts.map(function (text) { return h('li', {}, text); })); }
  function places(each) {
    const all = list(each.places);
    all.lang = 'en';
    if (each.places.length <= kOpen) return all;
    return h('details', {}, h('summary', {}, say(words().places, String(each.places.length))), all);
  }
  function difference(each) {
    return h('li', { class: 'difference' },
      each.word ? h('p', { lang: 'en' }, h('b', { class: 'word' }, each.word)) : null,
      h('p', {}, h('b', {}, words().was2 + ' '), h('span', { lang: 'en', class: 'was' }, each.was)),
      h('p', {}, h('b', {}, words().now2 + ' '), h('span', { lang: 'en', class: 'now' }, each.now)),
      places(each));
  }
  function english() { return words().english ? h('p', { class: 'soft' }, words().english) : null; }

  function protocolChanges(title, told) {
    const parts = [h('h3', {}, title), h('div', { lang: 'en', class: 'numbers' }, list(told.numbers), told.common ? h('p', { class: 'common' }, told.common) : null)];
    told.groups.forEach(function (group) {
      const first = group.differences.slice(0, kFirst), rest = group.differences.slice(kFirst);
      parts.push(h('details', { class: 'turn ' + group.turn, open: group.turn === 'calmer' || group.turn === 'first' ? '' : null },
        h('summary', {}, h('h4', { lang: 'en' }, group.heading + ' (' + group.differences.length + ')')),
        h('ul', { class: 'plain' }, ...first.map(difference)),
        rest.length > 0 ? h('details', {}, h('summary', {}, say(words().moreChanges, String(rest.length))), h('ul', { class: 'plain' }, ...rest.map(difference))) : null));
    });
    if (told.gave_up) parts.push(h('p', { class: 'bad', lang: 'en' }, told.gave_up));
    parts.push(h('p', { class: 'soft same', lang: 'en' }, told.same));
    return h('section', { class: 'protocol', 'data-protocol': told.protocol }, ...parts);
  }
  // `open`: the titles of those that are still being worked out.
  function changes(all, errors, open) {
    const parts = [h('h2', { id: 'changes-title' }, words().changes)];
    if (errors) parts.push(h('p', { class: 'bad' }, words().changesLater));
    else if (all.length === 0 && open.length === 0) parts.push(h('p', {}, words().changesNone));
    else parts.push(english(), ...all.map(function (each) { return protocolChanges(each.title, each.told); }));
    if (open.length > 0) parts.push(h('p', { class: 'open' }, say(words().comparing, open.join(', '))));
    return h('section', { 'aria-labelledby': 'changes-title', id: 'changes', tabindex: '-1' }, ...parts);
  }

  function finding(each) {
    return h('li', { class: 'finding ' + each.severity },
      h('p', {}, h('b', {}, (each.severity === 'error' ? words().error : words().warning) + ' '), h('span', { lang: 'en', class: 'sentence' }, each.sentence)),
      each.because ? h('p', {}, h('b', {}, words().because + ' '), h('span', { lang: 'en', class: 'because' }, each.because)) : null,
      each.try ? h('p', {}, h('b', {}, words().tryThis + ' '), h('span', { lang: 'en', class: 'try' }, each.try)) : null,
      h('p', { class: 'soft place' }, each.place),
      each.line ? h('details', {}, h('summary', { 'aria-label': words().line + ': ' + each.place }, words().line), h('pre', { lang: 'en', tabindex: '0' }, each.line + '\n' + each.caret)) : null);
  }
  function findings(found, isChanged) {
    const fresh = found.findings.filter(function (each) { return each.fresh; });
    const earlier = found.findings.filter(function (each) { return !each.fresh; });
    const worstFirst = fresh.filter(function (each) { return each.severity === 'error'; }).concat(fresh.filter(function (each) { return each.severity !== 'error'; }));
    const parts = [h('h2', { id: 'check-title' }, words().check), h('p', {}, say(words().errors, String(found.errors), String(found.warnings)))];
    if (found.findings.length > 0) parts.push(english());
    if (found.errors > 0) parts.push(h('p', { class: 'bad' }, words().errorsHow));
    if (isChanged) parts.push(h('p', {}, worstFirst.length > 0 ? words().fresh : words().freshNone));
    if (worstFirst.length > 0) parts.push(h('ul', { class: 'plain' }, ...worstFirst.map(finding)));
    if (earlier.length > 0) {
      parts.push(h('details', { open: earlier.some(function (each) { return each.severity === 'error'; }) ? '' : null },
        h('summary', {}, say(words().earlier, String(earlier.length))), h('ul', { class: 'plain' }, ...earlier.map(finding))));
    }
    return h('section', { 'aria-labelledby': 'check-title', id: 'check', tabindex: '-1' }, ...parts);
  }

  function calmer(all) {
    let count = 0;
    all.forEach(function (each) { each.told.groups.forEach(function (group) { if (group.turn === 'calmer') count += group.differences.length; }); });
    return count;
  }
  // What stands below, with how much of it: so that nobody has to scroll to learn that there is more.
  function index(all, found) {
    const count = calmer(all), fresh = found.findings.filter(function (each) { return each.fresh; }).length;
    const line = function (id, text, more) { return h('li', {}, h('a', { href: '#' + id }, text), more ? ': ' + more : ''); };
    return [line('changes', words().changes, count > 0 ? say(words().indexCalmer, String(count)) : ''),
      line('check', words().check, fresh > 0 ? say(words().indexFresh, String(fresh)) : ''), line('map', words().map, '')];
  }

  return { changes, findings, calmer, index };
};
