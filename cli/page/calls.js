// The two calls of the engine: text in, text out. A night of lines is longer than what fits beside the engine's stack.
'use strict';
// A moment as the engine reads it: the wall clock of this phone, with what it is ahead of UTC.
window.rushlightMoment = function (date) {
  const two = function (number) { return String(number).padStart(2, '0'); };
  const ahead = -date.getTimezoneOffset();
  const shown = new Date(date.getTime() + ahead * 60000).toISOString().slice(0, 19);
  return shown + (ahead < 0 ? '-' : '+') + two(Math.floor(Math.abs(ahead) / 60)) + ':' + two(Math.abs(ahead) % 60);
};
window.rushlightCalls = function (made) {
  function told(name, texts) {
    const places = texts.map(function (text) {
      const size = made.lengthBytesUTF8(text) + 1;
      const place = made._malloc(size);
      made.stringToUTF8(text, place, size);
      return place;
    });
    const answer = made.UTF8ToString(made[name](...places));
    places.forEach(function (place) { made._free(place); });
    return answer;
  }
  return {
    open: function (model, child, today) { return told('_rushlight_open', [model, child, today]); },
    call: function (request) { return told('_rushlight_call', [request]); }
  };
};
