// Before the rest of what emscripten writes: its own way asks the network for the engine's bytes, which stand in this very script, and the page's
// policy allows no such request.
Module['instantiateWasm'] = function (imports, receive) {
  WebAssembly.instantiate(getBinary(wasmBinaryFile), imports).then(function (made) { receive(made.instance, made.module); }, readyPromiseReject);
  return {};
};
