#pragma once

#include "night.hpp"

namespace rushlight::test {

/// The sick-day protocol of the tests, linked with the low one; approved where the test says so.
inline CheckedProtocol small_set(const std::string& first, bool approved = true, const std::string& old = "",
                                 const std::string& put = "") {
  const auto alone = [&](const std::string& path) {
    std::string text = text_of_file(path);
    if (const std::size_t at = text.find(old); !old.empty() && at != std::string::npos) text.replace(at, old.size(), put);
    Read<Draft> draft = protocol_from_xml(text, path);
    Read<Protocol> protocol = resolve(*draft.value);
    if (!protocol.value) throw std::runtime_error(text_from_finding(protocol.findings.front(), std::nullopt));
    if (approved)
      protocol.value->parts.front().approval =
          Approval{"a clinic", "a nurse", *day_from_text("2026-01-01"), *day_from_text("2026-12-31"), {}, {}, {}, Standing::good};
    Checked result = check(std::move(*protocol.value));
    if (!result.protocol) throw std::runtime_error(text_from_finding(result.findings.front(), std::nullopt));
    return *result.protocol;
  };
  const std::string folder = RUSHLIGHT_SOURCE_DIR "/tests/episode/";
  Checked whole = check_linked({alone(folder + "small_sick.xml"), alone(folder + "small_low.xml")}, first);
  if (!whole.protocol) throw std::runtime_error(text_from_finding(whole.findings.front(), std::nullopt));
  return *whole.protocol;
}

inline const CheckedProtocol& small_sick() {
  static const CheckedProtocol protocol = small_set("sick");
  return protocol;
}

/// Mara with everything an insulin dose needs on file, and an injection kit.
inline Child sick_mara() {
  Child child = mara();
  child.total_daily_dose = InsulinDose{Decimal::whole(16), kInsulinUnit};
  child.daily_dose_on = *day_from_text("2026-02-10");
  child.insulin_strength = Quantity{Decimal::whole(100), Unit::unit_per_ml};
  child.insulin_step = InsulinDose{Decimal::of_micros(500'000), kInsulinUnit};
  child.rescue = {{RescueKind::injection, *day_from_text("2027-06-30"), "kitchen drawer",
                   Quantity{Decimal::whole(1), Unit::mg_per_ml}}};
  return child;
}

inline Night sick_night(Child child = sick_mara()) { return Night(std::move(child), small_sick()); }

/// Asked and answered up to the step that follows the first questions.
inline Night looked(const std::string& glucose, const std::string& ketones, Child child = sick_mara(),
                    const std::string& insulin = "none") {
  Night night = sick_night(std::move(child));
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", glucose).answer("ketones", ketones);
  return night.answer("last-rapid-insulin", insulin);
}

inline DoseResult dose_now(const Night& night, const std::string& name) {
  const Protocol& protocol = night.protocol();
  for (std::size_t place = 0; place < protocol.doses.size(); ++place) {
    if (protocol.doses[place].name != name) continue;
    const Episode& episode = night.episode();
    const Scene scene = scene_at(protocol, night.child(), episode, episode.clock.last_wall + episode.clock.lost);
    return dose_for(scene, DoseId{static_cast<std::uint16_t>(place)}, Language::en);
  }
  throw std::runtime_error("no dose: " + name);
}

}  // namespace rushlight::test
