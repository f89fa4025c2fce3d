// The two calls of the engine: text in, text out. A night of lines is longer than what fits beside the engine's stack.
'use strict';
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
