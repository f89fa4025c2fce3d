#pragma once

#include <optional>
#include <string>

#include "episode/scene.hpp"

namespace rushlight {

// Values and texts as a person reads them: "6 years", "4 units", never a UCUM code that is no word.

std::string said(const Quantity& quantity, Language language);
std::string said(const Limit& limit, GlucoseUnit unit, Language language);
std::string said(const Glucose& reading, Language language);

/// A text without blanks (labels, names, reasons); blanks are left out.
std::string plain_words(const Text& text, Language language);

/// A text with its blanks filled for this scene. A text that names a withheld dose becomes the reason alone. `food_dose` says how much carbohydrate {food} has to hold.
std::string filled(const Scene& scene, const Text& text, Language language, std::optional<DoseId> food_dose);

/// What nobody can name worries them all the same: the answer that says so; empty where the protocol lists no such worry.
Answers unnamed_worry(const Protocol& protocol);

/// Why the text cannot say its amount: a dose that it names is withheld or spent. Empty when it can.
std::optional<std::string> withheld_in(const Scene& scene, const Text& text, Language language);

/// How a contact is named and reached: the child's own number, or words until one is given.
std::string who(Contact contact, Language language);
std::string number_of(const Contacts& contacts, Contact contact, Language language);

/// The open call as a sentence: "Call 911 now. Nobody was reached."
std::string call_words(const Contacts& contacts, const OpenCall& call, Language language);

/// When the step's wait asks for the next look: "in 15 minutes" before it has started, then "at 02:26". Empty without a wait.
std::string when_again(const Scene& scene, Language language);

/// The instant the step's wait ends; before it has started, the latest at which it can. Empty without a wait.
std::optional<Instant> wait_ends_by(const Scene& scene);

}  // namespace rushlight
