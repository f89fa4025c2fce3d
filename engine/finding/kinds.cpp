#include "finding/kinds.hpp"

namespace rushlight {

Kind::Kind(const Kind& other) = default;
Kind::Kind(Kind&& other) noexcept = default;
Kind& Kind::operator=(const Kind& other) = default;
Kind& Kind::operator=(Kind&& other) noexcept = default;
Kind::~Kind() = default;

}  // namespace rushlight
