#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/decimal.hpp"

namespace rushlight {

/// Writes JSON with its keys in the order they are given and its numbers exactly as measure/decimal writes them.
/// Never throws: bytes that are no UTF-8 become replacement characters.
class JsonWriter {
 public:
  enum class Form : bool { one_line, indented };
  explicit JsonWriter(Form form = Form::one_line) : form_(form) {}

  JsonWriter& begin_object() { return begin('{'); }
  JsonWriter& end_object() { return end('}'); }
  JsonWriter& begin_list() { return begin('['); }
  JsonWriter& end_list() { return end(']'); }
  JsonWriter& key(std::string_view name);
  JsonWriter& text(std::string_view value);
  JsonWriter& number(Decimal value);
  JsonWriter& whole(long long value);
  JsonWriter& boolean(bool value);
  JsonWriter& null();
  /// A value that is JSON already.
  JsonWriter& raw(std::string_view json);

  const std::string& json() const { return json_; }

 private:
  JsonWriter& begin(char bracket);
  JsonWriter& end(char bracket);
  void before_value();
  void new_line();

  Form form_;
  std::string json_;
  std::vector<bool> filled_;  // for each open bracket: something stands in it
  bool after_key_ = false;
};

}  // namespace rushlight
