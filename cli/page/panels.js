// What covers the walk for a moment: the numbers, the pictures for a child who is alone, and what this page is. `page` gives the words, what
// is known, the journal, the plan and the alarm, and covers and uncovers.
'use strict';
window.rushlightPanels = function (page) {
  const { say, h, button, telButton, unbroken, title, tellBeside } = window.rushlightFace;
  const drawing = window.rushlightDrawings;
  const kNights = 10; // so many of the latest are offered to be saved

  function numbers() {
    const words = page.words();
    page.cover([
      title(words.numbers),
      ...page.own().contacts.map(function (contact) {
        return telButton(contact, contact.who + ': ', unbroken(contact.number)) || h('p', {}, contact.who + ': ' + contact.number);
      }),
      page.known().address ? h('p', {}, say(words.address, page.known().address)) : null,
      h('div', { class: 'keys' }, button(words.back, page.uncover))
    ]);
  }

  // Two calls, what to say, and no medicine.
  function pictures() {
    const words = page.words();
    const contacts = page.own().contacts;
    const big = function (kind, text, picture) {
      const contact = contacts.find(function (each) { return each.kind === kind; });
      return contact ? telButton(Object.assign({ picture }, contact), text, h('br', {}), contact.who + ': ', unbroken(contact.number)) : null;
    };
    const line = function (picture, text) { return h('li', { class: 'deed' }, drawing(picture), h('div', {}, text)); };
    const adult = big('second-adult', words.kidAdult, 'adult');
    const help = big('emergency', words.kidEmergency, 'help');
    page.cover([
      h('div', { class: 'kid' }, title(words.kidTitle), adult, help,
        help && adult ? null : h('p', { class: 'warn' }, words.kidNoNumber),
        h('ul', { class: 'stack', role: 'list' }, line('call-emergency', say(words.kidSay, page.known().child)),
          page.known().address ? line('note', say(words.kidWhere, page.known().address)) : null,
          line('needle', words.kidNoNeedle), line('door', words.kidDoor), line('stay', words.kidStay))),
      h('div', { class: 'keys' }, button(words.kidBack, page.uncover))
    ]);
  }

  async function about() {
    const words = page.words(), plan = page.plan(), journal = page.journal();
    const nights = journal ? (await journal.episodesOf(page.known().child).catch(function () { return []; })).slice(-kNights).reverse() : [];
    page.cover([
      title(words.about),
      ...words.aboutLines.map(function (line) { return h('p', {}, say(line, plan.made, page.known().set)); }),
      h('p', {}, page.own().approval), h('p', {}, page.own().caution),
      h('p', { class: 'soft' }, words.sums),
      h('ul', { class: 'sums' }, ...plan.files.map(function (file) { return h('li', {}, file.name + ' ' + file.sha256); })),
      nights.length > 0 ? h('div', { class: 'stack' }, ...nights.map(function (night) {
        const name = night.began.slice(0, 10) + ' ' + night.began.slice(11, 16) + ' ' + night.protocol;
        return button(say(words.saveOne, name), async function (event) { saveCopy(event.currentTarget, night, night.id, await journal.plan(night.plan)); });
      })) : null,
      h('div', { class: 'keys' }, button(words.back, page.uncover))
    ]);
  }

  // What a touch on `button` leads to is said beside it.
  function tryAlarm(button) {
    const words = page.words();
    page.alarm.tryIt().then(function (sounds) { tellBeside(button, sounds ? words.alarmTried : words.noSoundYet); });
  }
  // Below the list of what else can be done in a night.
  function extras(episode) {
    const { alarm } = page, words = page.words();
    const list = h('div', { class: 'stack' }, button(words.alarmTry, function (event) { tryAlarm(event.currentTarget); }));
    if (alarm.mayAsk()) {
      list.append(button(words.notify, function (event) {
        const touched = event.currentTarget;
        alarm.ask().then(function (answer) { tellBeside(touched, answer === 'granted' ? words.notifyOn : words.notifyOff); });
      }));
    }
    if (episode && episode.id !== null) list.append(save(words.saveCopy, episode));
    list.append(button(words.alone, pictures), button(words.about, about));
    return list;
  }
  function save(text, episode, kind) {
    return button(text, function (event) { saveCopy(event.currentTarget, episode.record, episode.id, page.plan()); }, kind);
  }
  // Given up by hand: nothing of it runs, and it looks so.
  function ended(screen, episode, close) {
    const words = page.words();
    const kept = episode && episode.id !== null;
    return [title(say(words.endedAt, screen.leftAt)), h('p', { class: 'soft' }, screen.who),
      h('div', { class: 'stack' }, kept ? save(words.save, episode, 'main') : null, button(words.close, close))];
  }

  async function saveCopy(button, record, id, plan) {
    const text = window.rushlightJournal.file(record, plan, await page.journal().linesOf(id));
    const address = URL.createObjectURL(new Blob([text], { type: 'application/octet-stream' }));
    const link = h('a', { href: address, download: 'rushlight-' + record.began.slice(0, 10) + '.night' });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(function () { URL.revokeObjectURL(address); }, 60000);
    tellBeside(button, page.words().saveCopySaid);
  }

  return { numbers, pictures, about, saveCopy, extras, tryAlarm, ended };
};
