#include "cli/record_fhir.hpp"

#include "cli/plain_text.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

struct Loinc {
  const char* code;
  const char* display;
};

// Source: LOINC, Regenstrief Institute; the display is its long common name.
constexpr Loinc kGlucoseMass{"41653-7", "Glucose [Mass/volume] in Capillary blood by Glucometer"};
constexpr Loinc kGlucoseMoles{"14743-9", "Glucose [Moles/volume] in Capillary blood by Glucometer"};
constexpr Loinc kSensorMass{"99504-3", "Glucose [Mass/volume] in Interstitial fluid"};
constexpr Loinc kSensorMoles{"14745-4", "Glucose [Moles/volume] in Body fluid"};
constexpr Loinc kBloodKetones{"66441-7", "Beta hydroxybutyrate [Moles/volume] in Blood by Test strip"};
constexpr Loinc kUrineKetones{"2514-8", "Ketones [Presence] in Urine by Test strip"};

/// A name that is the same for the same thing and no other: FNV-1a over what it is made of, in the form of a UUID that
/// is made by its own rule (version 8, RFC 9562).
std::string uuid_of(const std::string& what) {
  const auto sum = [&](std::uint64_t hash) {
    for (const char letter : what) hash = (hash ^ static_cast<std::uint8_t>(letter)) * 1099511628211ULL;
    return hash;
  };
  constexpr char kDigits[] = "0123456789abcdef";
  std::string digits;
  for (std::uint64_t hash : {sum(14695981039346656037ULL), sum(0x5275736831696768ULL)}) {
    for (int at = 0; at < 16; ++at, hash >>= 4) digits += kDigits[hash & 15];
  }
  digits[12] = '8';
  digits[16] = kDigits[8 + (digits[16] % 4)];
  return digits.substr(0, 8) + "-" + digits.substr(8, 4) + "-" + digits.substr(12, 4) + "-" + digits.substr(16, 4) +
         "-" + digits.substr(20);
}

class Bundle {
 public:
  Bundle(const std::vector<NightRecord>& nights, const Child& child) : nights_(nights), child_(child) {
    patient_ = "urn:uuid:" + uuid_of("patient|" + child.name + "|" + text_from_day(child.birth));
  }

  std::string json() {
    json_.begin_object().key("resourceType").text("Bundle").key("type").text("collection");
    if (!nights_.empty()) json_.key("timestamp").text(text_from_moment(nights_.back().last));
    json_.key("entry").begin_list();
    entry(patient_, [&] {
      json_.key("resourceType").text("Patient").key("name").begin_list().begin_object();
      json_.key("text").text(cleaned(child_.name)).end_object().end_list();
      json_.key("birthDate").text(text_from_day(child_.birth));
    });
    for (const NightRecord& night : nights_) add(night);
    json_.end_list().end_object();
    return json_.json() + "\n";
  }

 private:
  template <class Fill>
  void entry(const std::string& url, const Fill& fill) {
    json_.begin_object().key("fullUrl").text(url).key("resource").begin_object();
    fill();
    json_.end_object().end_object();
  }

  void coding(const char* system, const char* code, const char* display) {
    json_.begin_object().key("system").text(system).key("code").text(code).key("display").text(display).end_object();
  }

  void add(const NightRecord& night) {
    std::vector<std::string> urls;
    const std::string begun = child_.name + "|" + text_from_moment(night.began);
    for (std::size_t at = 0; at < night.readings.size(); ++at) {
      urls.push_back("urn:uuid:" + uuid_of("reading|" + begun + "|" + std::to_string(at)));
      entry(urls.back(), [&] { observation(night.readings[at]); });
    }
    if (urls.empty()) return;
    entry("urn:uuid:" + uuid_of("provenance|" + begun), [&] { provenance(night, urls); });
  }

  static Loinc code_of(const RecordReading& reading) {
    if (reading.of == RecordReading::Of::blood_ketones) return kBloodKetones;
    if (reading.of == RecordReading::Of::urine_ketones) return kUrineKetones;
    const bool mass = std::get<Glucose>(reading.value).unit() == GlucoseUnit::mg_per_dl;
    if (reading.by_sensor) return mass ? kSensorMass : kSensorMoles;
    return mass ? kGlucoseMass : kGlucoseMoles;
  }

  void observation(const RecordReading& reading) {
    json_.key("resourceType")
        .text("Observation")
        .key("status")
        .text("final")
        .key("category")
        .begin_list()
        .begin_object();
    json_.key("coding").begin_list();
    coding("http://terminology.hl7.org/CodeSystem/observation-category", "laboratory", "Laboratory");
    json_.end_list().end_object().end_list();
    const Loinc code = code_of(reading);
    json_.key("code").begin_object().key("coding").begin_list();
    coding("http://loinc.org", code.code, code.display);
    json_.end_list().end_object();
    json_.key("subject").begin_object().key("reference").text(patient_).end_object();
    json_.key("effectiveDateTime").text(text_from_moment(reading.at));
    if (const auto* glucose = std::get_if<Glucose>(&reading.value)) return value_of(*glucose);
    if (const auto* ketones = std::get_if<KetoneReading>(&reading.value)) return value_of(*ketones, reading.text);
    json_.key("valueCodeableConcept").begin_object().key("text").text(reading.option).end_object();
  }

  void quantity(Decimal value, std::string_view unit) {
    json_.key("valueQuantity").begin_object().key("value").number(value).key("unit").text(unit);
    json_.key("system").text("http://unitsofmeasure.org").key("code").text(unit).end_object();
  }

  /// Beyond the range of the meter there is no number: the meter's own word, and that it was off the scale.
  void off_scale(const char* word, bool low) {
    json_.key("valueString").text(word).key("interpretation").begin_list().begin_object().key("coding").begin_list();
    coding("http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation", low ? "<" : ">",
           low ? "Off scale low" : "Off scale high");
    json_.end_list().end_object().end_list();
  }

  void value_of(const Glucose& glucose) {
    if (glucose.mark())
      return off_scale(*glucose.mark() == MeterMark::lo ? "LO" : "HI", *glucose.mark() == MeterMark::lo);
    quantity(*glucose.number(), ucum(unit_of(glucose.unit())));
  }
  void value_of(const KetoneReading& ketones, const std::string& text) {
    if (!ketones.number()) return off_scale(text.c_str(), text == "LO");
    quantity(ketones.number()->in(kMillimolePerLitre), ucum(Unit::mmol_per_l));
  }

  void provenance(const NightRecord& night, const std::vector<std::string>& urls) {
    json_.key("resourceType").text("Provenance").key("target").begin_list();
    for (const std::string& url : urls) json_.begin_object().key("reference").text(url).end_object();
    json_.end_list().key("recorded").text(text_from_moment(night.last)).key("agent").begin_list().begin_object();
    json_.key("type").begin_object().key("coding").begin_list();
    coding("http://terminology.hl7.org/CodeSystem/provenance-participant-type", "assembler", "Assembler");
    json_.end_list().end_object();
    json_.key("who").begin_object().key("display").text("Rushlight 0.1.0").end_object().end_object().end_list();
    json_.key("entity").begin_list().begin_object().key("role").text("source").key("what").begin_object();
    json_.key("display").text("Protocol " + night.protocol + " of the set " + night.set + ", version " + night.version +
                              ". " + cleaned(night.approval));
    json_.end_object().end_object().end_list();
  }

  const std::vector<NightRecord>& nights_;
  const Child& child_;
  std::string patient_;
  JsonWriter json_{JsonWriter::Form::indented};
};

}  // namespace

std::string fhir_from_records(const std::vector<NightRecord>& nights, const Child& child) {
  return Bundle(nights, child).json();
}

}  // namespace rushlight
