#include "verify/dose_envelope.hpp"

#include "episode/words.hpp"
#include "verify/dose_pieces.hpp"

namespace rushlight {
namespace {

DoseEnvelope envelope_of(const Protocol& protocol, DoseId id) {
  const Dose& dose = protocol[id];
  const DosePieces pieces(protocol, id);
  DoseEnvelope envelope{id, {}, {}};
  for (const DosePiece& piece : pieces.pieces()) {
    for (const bool greatest : {false, true}) {
      const auto corner = greatest ? pieces.greatest(piece) : pieces.least_given(piece);
      const auto amount = corner ? pieces.amount(piece, *corner) : std::nullopt;
      std::optional<DoseEnd>& end = greatest ? envelope.greatest : envelope.least;
      if (!amount || (end && (greatest ? end->amount.value >= *amount : end->amount.value <= *amount))) continue;
      end = DoseEnd{Quantity{*amount, dose.unit}, pieces.child(piece, *corner), static_cast<int>(piece.row) + 1,
                    dose.rows[piece.row].where};
    }
  }
  return envelope;
}

std::string text_from_end(const DoseEnd& end) { return said(end.amount, Language::en) + " (" + end.child + ")"; }

}  // namespace

std::vector<DoseEnvelope> dose_envelopes(const Protocol& protocol) {
  std::vector<DoseEnvelope> envelopes;
  for (std::size_t i = 0; i < protocol.doses.size(); ++i)
    envelopes.push_back(envelope_of(protocol, DoseId{static_cast<std::uint16_t>(i)}));
  return envelopes;
}

std::string text_from_envelope(const Protocol& protocol, const DoseEnvelope& envelope) {
  const std::string name = "`" + protocol[envelope.dose].name + "`: ";
  if (!envelope.least || !envelope.greatest) return name + "always withheld";
  if (envelope.least->amount == envelope.greatest->amount) return name + said(envelope.least->amount, Language::en);
  return name + text_from_end(*envelope.least) + " to " + text_from_end(*envelope.greatest);
}

}  // namespace rushlight
