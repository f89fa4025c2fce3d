#pragma once

#include <cstddef>
#include <string>

#include "finding/finding.hpp"
#include "read/source_map.hpp"

namespace rushlight {

// The tree library takes much that is not XML. What reaches it has passed here, so that what was approved is what is
// read.

// A protocol is written by hand; these are far above the largest a clinic would write and far below what hurts.
inline constexpr std::size_t kMostBytes = 1024 * 1024;
inline constexpr std::size_t kMostDepth = 64;
inline constexpr std::size_t kMostAttributes = 64;       // of one element: the tree library searches them one by one
inline constexpr std::size_t kMostTextLength = 8000;     // code points of one text or value
inline constexpr std::size_t kMostNameLength = 100;      // code points
inline constexpr std::size_t kMostVettingFindings = 50;  // more say nothing new

/// Bytes that are well-formed XML 1.0 in UTF-8, with the place of every word in them.
struct VettedXml {
  std::string bytes;
  FileName file_name;
  bool has_byte_order_mark;  // to be kept when the file is written again
  SourceMap map;
};

/// Refuses whatever is not well-formed, and beyond that DOCTYPE, processing instructions, CDATA sections, names with a
/// colon, encodings other than UTF-8 and everything above the caps. Goes on behind a mistake where that makes sense.
/// Bytes that are not UTF-8 or hold forbidden characters are not looked into further. An empty file is refused.
Read<VettedXml> vet_xml(std::string bytes, FileName file_name);

}  // namespace rushlight
