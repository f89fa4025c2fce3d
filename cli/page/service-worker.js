// Keeps the page on the phone: everything is fetched once, when it is made, and then given from there with no network at all.
'use strict';
const kName = 'rushlight-@SUM@';
const kFiles = @FILES@;
self.addEventListener('install', function (event) {
  event.waitUntil(caches.open(kName).then(function (cache) {
    return cache.addAll(kFiles.map(function (file) { return new Request(file, { cache: 'reload' }); }));
  }).then(function () { return self.skipWaiting(); }));
});
self.addEventListener('activate', function (event) {
  event.waitUntil(caches.keys().then(function (names) {
    return Promise.all(names.filter(function (name) { return name.startsWith('rushlight-') && name !== kName; })
      .map(function (name) { return caches.delete(name); }));
  }).then(function () { return self.clients.claim(); }));
});
self.addEventListener('fetch', function (event) {
  const asked = new URL(event.request.url);
  if (event.request.method !== 'GET' || asked.origin !== self.location.origin) return;
  event.respondWith(caches.open(kName).then(function (cache) {
    return cache.match(event.request, { ignoreSearch: true }).then(function (kept) { return kept || fetch(event.request); });
  }));
});
self.addEventListener('notificationclick', function (event) {
  event.notification.close();
  event.waitUntil(self.clients.matchAll({ type: 'window' }).then(function (windows) {
    return windows.length > 0 ? windows[0].focus() : self.clients.openWindow('./');
  }));
});
