// The journal in the browser: the same event lines as everywhere, in the order they were told. A line counts as kept when the
// browser says that its transaction is complete.
'use strict';
window.rushlightJournal = (function () {
  const kTwoWeeks = 14 * 24 * 3600 * 1000;

  function done(request) {
    return new Promise(function (yes, no) {
      request.onsuccess = function () { yes(request.result); };
      request.onerror = function () { no(request.error); };
    });
  }
  function complete(transaction) {
    return new Promise(function (yes, no) {
      transaction.oncomplete = function () { yes(); };
      transaction.onabort = function () { no(transaction.error || new Error('aborted')); }; // only then the reason is known
    });
  }

  async function open() {
    const request = indexedDB.open('rushlight', 1);
    request.onupgradeneeded = function () {
      request.result.createObjectStore('document', { keyPath: 'sum' });
      request.result.createObjectStore('episode', { keyPath: 'id', autoIncrement: true });
      request.result.createObjectStore('event', { keyPath: ['episode', 'seq'] });
    };
    const store = await done(request);
    store.onversionchange = function () { store.close(); };
    return new Journal(store);
  }

  class Journal {
    constructor(store) { this.store = store; }

    change(names) { return this.store.transaction(names, 'readwrite', { durability: 'strict' }); }

    // A new episode with its first lines: both or neither. `plan` is all that a resume needs, kept once.
    async begin(episode, plan, lines) {
      const change = this.change(['document', 'episode', 'event']);
      change.objectStore('document').put(plan);
      const id = await done(change.objectStore('episode').add(episode));
      lines.forEach(function (line, seq) { change.objectStore('event').add({ episode: id, seq, line }); });
      await complete(change);
      return id;
    }

    // `add` refuses a place that is taken: then another window went on with the episode, and nothing is written.
    async append(id, from, lines) {
      const change = this.change(['event']);
      lines.forEach(function (line, place) { change.objectStore('event').add({ episode: id, seq: from + place, line }); });
      await complete(change);
    }

    async end(id, at) {
      const change = this.change(['episode']);
      const episodes = change.objectStore('episode');
      const episode = await done(episodes.get(id));
      if (episode && !episode.ended) episodes.put(Object.assign(episode, { ended: at }));
      await complete(change);
    }

    async episodesOf(child) {
      const all = await done(this.store.transaction('episode').objectStore('episode').getAll());
      return all.filter(function (episode) { return episode.child === child; });
    }
    async unfinished(child) {
      const open = (await this.episodesOf(child)).filter(function (episode) { return !episode.ended; });
      return open.length > 0 ? open[open.length - 1] : null;
    }
    async linesOf(id) {
      const range = IDBKeyRange.bound([id, 0], [id, Infinity]);
      const events = await done(this.store.transaction('event').objectStore('event').getAll(range));
      return events.map(function (event) { return event.line; });
    }
    async plan(sum) { return done(this.store.transaction('document').objectStore('document').get(sum)); }

    // What the engine looks through for what was given and measured before, the oldest first, each with its plan: `sum` is the one that is open.
    async past(child, now, sum) {
      const nights = [], plans = [];
      for (const { id, protocol, began, plan } of await this.episodesOf(child)) {
        if (now - Date.parse(began) >= kTwoWeeks) continue;
        nights.push({ protocol, began, plan: plan === sum ? '' : plan, lines: await this.linesOf(id) });
        if (plan === sum || plans.some(function (each) { return each.sum === plan; })) continue;
        const kept = await this.plan(plan);
        if (kept) plans.push({ sum: kept.sum, model: kept.model, child: kept.child.replace(/[\r\n\t]+/g, ' ') }); // between its words only; a text of a request holds no line end
      }
      return { nights, plans };
    }
  }

  // What `rushlight import` reads (docs/page.md): a line that says how long each part is, then the parts.
  function file(episode, plan, lines) {
    const bytes = function (text) { return new TextEncoder().encode(text).length; };
    const protocol = plan.kept[episode.protocol].map(function (piece) {
      return typeof piece === 'number' ? plan.files[piece].bytes : piece;
    }).join('');
    const head = { rushlight: 'night', format: 1, child: episode.child, began: episode.began, set: episode.set,
      protocol: episode.protocol, version: episode.version, ended: episode.ended || '', child_bytes: bytes(plan.child),
      protocol_bytes: bytes(protocol), events: lines.length };
    return JSON.stringify(head) + '\n' + plan.child + '\n' + protocol + '\n' +
      lines.map(function (line) { return line + '\n'; }).join('');
  }

  function lastSaid(episode, lines) {
    let last = episode.began;
    for (const line of lines) { try { last = JSON.parse(line).at || last; } catch (unreadable) { break; } }
    return last;
  }

  return { open, file, lastSaid };
})();
