#pragma once

#include <memory>
#include <string>
#include <utility>

namespace rushlight {

/// The name of a file. Every word of a file keeps its place, a hundred thousand of them in one check, so copies share
/// the letters. Compared by what it says.
class FileName {
 public:
  FileName() = default;
  FileName(std::string name) : name_(std::make_shared<const std::string>(std::move(name))) {}
  FileName(const char* name) : FileName(std::string(name)) {}

  const std::string& text() const {
    static const std::string none;
    return name_ ? *name_ : none;
  }
  operator const std::string&() const { return text(); }

  friend bool operator==(const FileName& a, const FileName& b) { return a.name_ == b.name_ || a.text() == b.text(); }
  friend bool operator<(const FileName& a, const FileName& b) { return a.name_ != b.name_ && a.text() < b.text(); }

 private:
  std::shared_ptr<const std::string> name_;
};

}  // namespace rushlight
