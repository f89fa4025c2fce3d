#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "protocol/draft.hpp"
#include "protocol/protocol.hpp"
#include "read/stated_value.hpp"

namespace rushlight {

/// A new value for one number of a protocol.
struct ThresholdChange {
  std::string threshold;  // its id
  std::string band;       // which of its bands (protocol/band_name); empty when it has none
  ValueWords words;
  Where where;  // where the change was stated: what is wrong with it is told there
};

/// What was replaced by one change.
struct ReplacedValue {
  ValueWords before;       // letter for letter as it stood between the quote signs
  Where where;             // of the threshold or the band, in the file
  bool as_written = true;  // without a character reference or a line break, which come out as what they stand for
};

struct EditedProtocol {
  std::string bytes;
  Draft draft;                          // as reading these bytes gives it
  std::vector<ReplacedValue> replaced;  // in the order of the changes
};

/// The bytes of a protocol with these values written in place of the old ones. Nothing else moves: comments, spacing,
/// the order of the words, quote signs, line ends and a byte order mark stay. A change back to `before` gives the first
/// bytes again, unless digits were written as character references.
///
/// Refuses, and gives no bytes, when the file itself cannot be read without an error, when an id or a band is not
/// there, when one value is changed twice, and whenever the reader of protocols would refuse the new value: a wrong
/// unit, a number outside its range, two values that are not the same glucose. A source that prints an uneven pair
/// (`pair-exception`) may be off by the last digit of the mmol/L, no more.
Read<EditedProtocol> threshold_edit(std::string_view bytes, const std::string& file_name,
                                    const std::vector<ThresholdChange>& changes);

/// The same for a file that was read already, without an error, into this draft and this protocol. Needs no reader of
/// XML.
Read<EditedProtocol> threshold_edit(std::string_view bytes, const Draft& draft, const Protocol& protocol,
                                    const std::vector<ThresholdChange>& changes);

}  // namespace rushlight
