// What stands there before a walk: whom to call at once, what it is about, and whether an episode that is still open goes on. `page` gives
// the words and what is known; what a touch does is handed in.
'use strict';
window.rushlightBefore = function (page) {
  const { say, h, button, telButton, unbroken, title } = window.rushlightFace;
  function dayAndClock(moment) { return moment.slice(0, 10) + ' ' + moment.slice(11, 16); }

  function home(note, touches) {
    const words = page.words(), own = page.own(), known = page.known(), language = page.language();
    const emergency = own.contacts.find(function (contact) { return contact.kind === 'emergency'; });
    return [
      h('p', { class: 'soft' }, known.child + ' \u00b7 ' + own.approval),
      telButton(emergency, words.dangerFirst + ' ', unbroken(emergency.number)) || h('p', { class: 'warn' }, words.dangerFirst + ' ' + words.noNumber),
      title(words.whatIsIt),
      note ? h('p', { class: 'warn', role: 'status' }, note) : null,
      h('div', { class: 'stack' }, ...known.protocols.map(function (each, place) {
        return button(each[language], function () { touches.begin(each.id); }, place === 0 ? 'main' : null);
      })),
      h('div', { class: 'tops' }, button(words.alone, touches.pictures), button(words.alarmTry, function (event) { touches.tryAlarm(event.currentTarget); }),
        h('button', { type: 'button', lang: language === 'es' ? 'en' : 'es', 'aria-label': words.languageLabel, onclick: touches.otherLanguage }, h('span', {}, words.language)),
        button(words.about, touches.about)),
      h('p', { class: 'soft' }, own.caution)
    ];
  }

  function stillOpen(open, last, touches) {
    const words = page.words();
    return [
      title(say(words.openTitle, open.child, dayAndClock(open.began))),
      h('p', {}, say(words.openWas, dayAndClock(last))),
      h('div', { class: 'stack' }, button(words.openGoOn, touches.goOn, 'main'), button(words.openNew, touches.anew))
    ];
  }

  // `touches`: what is left to do about the episode that is still open.
  function failed(why, touches) {
    const words = page.words();
    const list = touches ? [h('div', { class: 'stack' }, button(words.saveCopy, function (event) { touches.save(event.currentTarget); }), button(words.openNew, touches.anew))] : [];
    return [title(words.failTitle), h('p', { class: 'warn' }, why), ...list];
  }

  return { home, stillOpen, failed };
};
