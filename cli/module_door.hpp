#pragma once

namespace rushlight {

/// A function of a part of the program that lies beside it and is loaded only when it is asked for, such as
/// "rushlight-paper.so". Null when that part is not there or has no such function.
void* door_of_module(const char* module, const char* function);

}  // namespace rushlight
