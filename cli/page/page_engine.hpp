#pragma once

// What the browser sees of the engine: text in, text out. Each answer stays until the next call.

extern "C" {
/// Another plan or another child: PageWalk::open.
const char* rushlight_open(const char* model, const char* child, const char* today);
/// PageWalk::call.
const char* rushlight_call(const char* request);
}
