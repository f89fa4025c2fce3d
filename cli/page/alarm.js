// The alarm: a sound made here, a shake, and a notification where they are allowed; and the screen kept awake. Nothing of it can be
// relied on (a phone may be silenced, asleep or empty), and the page says so.
'use strict';
window.rushlightAlarm = (function () {
  const kSoundBegins = 200; // milliseconds after a touch that lets a page sound
  let sound = null;
  let awake = null;
  let wantsAwake = false;

  // Browsers let a page sound only after a touch: call this from one.
  function allow() {
    const Sound = window.AudioContext || window.webkitAudioContext;
    if (!Sound) return;
    if (!sound) sound = new Sound();
    if (sound.state !== 'running') sound.resume().catch(function () {});
  }

  function canSound() {
    return sound !== null && sound.state === 'running';
  }

  // Two rising pairs of tones, a rough and a clear one, so that one of them is heard through a wall or by an old ear.
  function ring() {
    if (navigator.vibrate) navigator.vibrate([500, 150, 500, 150, 900]);
    if (!canSound()) return;
    const begin = sound.currentTime + 0.05;
    [660, 990, 660, 990, 1320].forEach(function (pitch, place) {
      const from = begin + place * 0.34;
      ['square', 'sine'].forEach(function (shape) {
        const tone = sound.createOscillator();
        const gain = sound.createGain();
        tone.type = shape;
        tone.frequency.value = shape === 'sine' ? pitch * 2 : pitch;
        gain.gain.setValueAtTime(0.0001, from);
        gain.gain.exponentialRampToValueAtTime(0.35, from + 0.03);
        gain.gain.exponentialRampToValueAtTime(0.0001, from + 0.3);
        tone.connect(gain).connect(sound.destination);
        tone.start(from);
        tone.stop(from + 0.32);
      });
    });
  }

  // From a touch: sounds once, and tells whether it does, as soon as that is known.
  function tryIt() {
    allow();
    const atOnce = canSound();
    ring();
    return new Promise(function (yes) {
      setTimeout(function () {
        if (!atOnce) ring();
        yes(canSound());
      }, kSoundBegins);
    });
  }

  function canNotify() {
    return 'Notification' in window && Notification.permission === 'granted';
  }
  function mayAsk() {
    return 'Notification' in window && Notification.permission === 'default';
  }
  function ask() {
    return 'Notification' in window ? Notification.requestPermission() : Promise.resolve('denied');
  }
  // Only words that may stand on a locked screen: how urgent, and for whom.
  function notify(title, text) {
    if (!canNotify() || document.visibilityState === 'visible') return;
    const options = { body: text, tag: 'rushlight', renotify: true, requireInteraction: true };
    const worker = navigator.serviceWorker && navigator.serviceWorker.controller;
    if (worker) {
      navigator.serviceWorker.ready.then(function (ready) { return ready.showNotification(title, options); }).catch(function () {});
    } else {
      try { new Notification(title, options); } catch (refused) { /* some phones allow it to a worker only */ }
    }
  }

  async function keepAwake(wanted) {
    wantsAwake = wanted;
    if (!wanted) {
      if (awake) awake.release().catch(function () {});
      awake = null;
      return;
    }
    if (awake || !navigator.wakeLock || document.visibilityState !== 'visible') return;
    try {
      awake = await navigator.wakeLock.request('screen');
      awake.addEventListener('release', function () { awake = null; });
    } catch (refused) {
      awake = null;
    }
  }
  document.addEventListener('visibilitychange', function () { if (wantsAwake) keepAwake(true); });

  return { allow, ring, tryIt, canSound, canNotify, mayAsk, ask, notify, keepAwake, isAwake: function () { return awake !== null; } };
})();
