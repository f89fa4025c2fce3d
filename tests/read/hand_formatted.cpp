#include "read/hand_formatted.hpp"

#include <algorithm>
#include <stdexcept>

#include "protocol/words.hpp"
#include "read/vetted_bytes.hpp"

namespace rushlight::tests {

namespace {

class Hand {
 public:
  Hand(const VettedXml& xml, std::mt19937& dice) : xml_(xml), dice_(dice) {
    line_end_ = one_of({"\n", "\r\n", "\n", "\r\n", "\r"});
    if (one_in(2)) out_.bytes = "\xEF\xBB\xBF";
  }

  HandFormatted write() {
    std::size_t at = 0;
    for (std::size_t i = 0; i < xml_.map.elements.size(); ++i) {
      const MappedElement& element = xml_.map.elements[i];
      put_text(xml_.bytes.substr(at, element.tag.begin - at));
      put_tag(i);
      at = element.tag.end;
    }
    put_text(xml_.bytes.substr(at));
    return std::move(out_);
  }

 private:
  bool one_in(unsigned count) { return dice_() % count == 0; }
  std::string one_of(const std::vector<std::string>& choices) { return choices[dice_() % choices.size()]; }

  // What stands between two tags, with the line ends of this hand and now and then a sign written as a reference.
  void put_text(const std::string& text) {
    for (const char c : text) {
      if (c == '<') inside_label_ = false;
      if (c == '\n')
        out_.bytes += line_end_;
      else if (c == 'e' && inside_label_ && one_in(9))
        out_.bytes += one_of({"&#101;", "&#x65;"});
      else
        out_.bytes += c;
    }
  }

  std::string blank() {
    std::string text = one_of({" ", " ", "  ", "\t", line_end_ + "    ", line_end_ + "\t"});
    return one_in(6) ? text + one_of({" ", "\t", line_end_}) : text;
  }

  void put_comment() {
    out_.bytes += one_of({"<!-- low=\"70\" mg-dl='70' -->", "<!-- número de la clínica -->", "<!---->",
                          "<!-- <band value=\"1 g\"/> -->"});
  }

  /// Whether text may stand here: no comment between the words of a text, which would be two texts.
  bool is_text(const MappedElement& element) const { return element.name == "en" || element.name == "es"; }

  void put_tag(std::size_t place) {
    const MappedElement& element = xml_.map.elements[place];
    inside_label_ = is_text(element);
    if (element.parent && one_in(5)) put_comment();
    out_.bytes += "<" + element.name;
    std::vector<const MappedAttribute*> attributes;
    for (const MappedAttribute& attribute : element.attributes) attributes.push_back(&attribute);
    std::shuffle(attributes.begin(), attributes.end(), dice_);
    for (const MappedAttribute* attribute : attributes) put_attribute(place, *attribute);
    if (one_in(4)) out_.bytes += blank();
    const bool closed = xml_.bytes[element.tag.end - 2] == '/';
    out_.bytes += closed ? "/>" : ">";
    if (!inside_label_ && !closed && one_in(5)) put_comment();
  }

  void put_attribute(std::size_t place, const MappedAttribute& attribute) {
    const std::string value = xml_.bytes.substr(attribute.value.begin, attribute.value.end - attribute.value.begin);
    const std::string quote = value.find('\'') == std::string::npos && one_in(2) ? "'" : "\"";
    out_.bytes += blank() + attribute.name + (one_in(6) ? " = " : "=") + quote;
    if (one_in(5)) out_.bytes += one_of({" ", "  "});
    const std::size_t begin = out_.bytes.size();
    out_.bytes += value;
    note(place, attribute.name, {begin, out_.bytes.size()});
    if (one_in(5)) out_.bytes += " ";
    out_.bytes += quote;
  }

  const std::string& id_of(std::size_t place) {
    for (const MappedAttribute& attribute : xml_.map.elements[place].attributes) {
      if (attribute.name != "id") continue;
      id_ = xml_.bytes.substr(attribute.value.begin, attribute.value.end - attribute.value.begin);
    }
    return id_;
  }

  void note(std::size_t place, const std::string& name, Span span) {
    if (name != "value" && name != "mg-dl" && name != "mmol-l") return;
    const MappedElement& element = xml_.map.elements[place];
    if (element.name == "band") {
      std::size_t band = 0;
      for (std::size_t other = *element.parent; other < place; ++other)
        band += xml_.map.elements[other].parent == element.parent && xml_.map.elements[other].name == "band" ? 1U : 0U;
      out_.values.push_back({id_of(*element.parent), band, name, span});
    } else if (words::place_of(words::kThresholdKinds, element.name)) {
      out_.values.push_back({id_of(place), std::nullopt, name, span});
    }
  }

  const VettedXml& xml_;
  std::mt19937& dice_;
  std::string line_end_;
  std::string id_;
  bool inside_label_ = false;
  HandFormatted out_;
};

}  // namespace

HandFormatted hand_formatted(const std::string& protocol, std::mt19937& dice) {
  const Read<VettedXml> xml = vet_xml(protocol, "protocol.xml");
  if (!xml.value) throw std::runtime_error("the protocol is no XML");
  return Hand(*xml.value, dice).write();
}

}  // namespace rushlight::tests
