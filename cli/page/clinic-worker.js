// Runs behind the engine's own script, in a worker, so that typing never waits for a proof. One question, one answer.
'use strict';
(function () {
  let engine = null;

  // Calls with texts, which are given back when the engine has answered.
  function called(name, texts) {
    const pointers = texts.map(function (text) {
      const size = engine.lengthBytesUTF8(text) + 1;
      const pointer = engine._malloc(size);
      engine.stringToUTF8(text, pointer, size);
      return pointer;
    });
    const answer = engine[name].apply(null, pointers);
    pointers.forEach(function (pointer) { engine._free(pointer); });
    return answer ? engine.UTF8ToString(answer) : '';
  }

  const does = {
    open: function (data) {
      return createClinicEngine().then(function (made) {
        engine = made;
        data.files.forEach(function (file) { called('_rushlight_clinic_file', [file.name, file.bytes]); });
        return called('_rushlight_clinic_open', [data.drafts]);
      });
    },
    ask: function (request) { return called('_rushlight_clinic_call', [JSON.stringify(request)]); }
  };

  self.onmessage = function (message) {
    const number = message.data.number;
    Promise.resolve().then(function () { return does[message.data.does](message.data.what); }).then(
      function (answer) { self.postMessage({ number, answer }); },
      function (error) { engine = null; self.postMessage({ number, failed: String(error) }); });
  };
})();
