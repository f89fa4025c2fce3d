#include "wire/json_writer.hpp"

#include <nlohmann/json.hpp>

namespace rushlight {
namespace {

std::string quoted_json(std::string_view text) {
  return nlohmann::json(std::string(text)).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace

void JsonWriter::new_line() {
  if (form_ == Form::one_line) return;
  json_ += '\n';
  json_.append(2 * filled_.size(), ' ');
}

void JsonWriter::before_value() {
  if (after_key_) {
    after_key_ = false;
    return;
  }
  if (filled_.empty()) return;
  if (filled_.back()) json_ += ',';
  filled_.back() = true;
  new_line();
}

JsonWriter& JsonWriter::begin(char bracket) {
  before_value();
  json_ += bracket;
  filled_.push_back(false);
  return *this;
}

JsonWriter& JsonWriter::end(char bracket) {
  const bool filled = filled_.back();
  filled_.pop_back();
  if (filled) new_line();
  json_ += bracket;
  return *this;
}

JsonWriter& JsonWriter::key(std::string_view name) {
  before_value();
  json_ += quoted_json(name);
  json_ += form_ == Form::one_line ? ":" : ": ";
  after_key_ = true;
  return *this;
}

JsonWriter& JsonWriter::raw(std::string_view json) {
  before_value();
  json_ += json;
  return *this;
}

JsonWriter& JsonWriter::text(std::string_view value) { return raw(quoted_json(value)); }
JsonWriter& JsonWriter::number(Decimal value) { return raw(text_from_decimal(value)); }
JsonWriter& JsonWriter::whole(long long value) { return raw(std::to_string(value)); }
JsonWriter& JsonWriter::boolean(bool value) { return raw(value ? "true" : "false"); }
JsonWriter& JsonWriter::null() { return raw("null"); }

}  // namespace rushlight
