#include <algorithm>

#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

constexpr std::size_t kMostLines = 5;  // of the other places of one mistake

/// One mistake and every place where it shows.
struct Told {
  Finding finding;
  std::vector<std::uint32_t> also_on;
};

bool is_about(const Finding& told, const UnknownId& again) {
  const auto* first = told.kind.as<UnknownId>();
  return first != nullptr && first->id == again.id && first->what == again.what && first->known == again.known;
}

// A blank stands for a threshold or a dose: a name that both lack is one mistake.
bool is_about(const Finding& told, const UnknownPlaceholder& again) {
  if (const auto* first = told.kind.as<UnknownPlaceholder>()) return first->name == again.name;
  const auto* first = told.kind.as<UnknownId>();
  return first != nullptr && first->id == again.name && (first->what == "threshold" || first->what == "dose");
}

bool is_about(const Finding& told, const Finding& again) {
  if (const auto* id = again.kind.as<UnknownId>()) return is_about(told, *id);
  const auto* blank = again.kind.as<UnknownPlaceholder>();
  return blank != nullptr && is_about(told, *blank);
}

std::vector<Told> told_once(std::vector<Finding> findings) {
  std::vector<Told> once;
  for (const bool ids : {true, false}) {  // ids first, so that blanks find them
    for (Finding& finding : findings) {
      if (finding.kind.is<UnknownPlaceholder>() == ids) continue;
      const auto first =
          std::find_if(once.begin(), once.end(), [&](const Told& told) { return is_about(told.finding, finding); });
      if (first == once.end()) {
        once.push_back({std::move(finding), {}});
      } else {
        first->also_on.push_back(finding.where.line);
      }
    }
  }
  return once;
}

/// The name asked for and the lists in which it could have stood; no list for every other kind of mistake.
struct Asked {
  std::string name;
  std::vector<const Names*> lists;
};

Asked asked_by(const Resolver& resolver, const Kind& kind) {
  if (const auto* blank = kind.as<UnknownPlaceholder>()) {
    return {blank->name, {&resolver.thresholds, &resolver.doses}};
  }
  const auto* id = kind.as<UnknownId>();
  if (id == nullptr) return {};
  for (const Names* names :
       {&resolver.sources, &resolver.thresholds, &resolver.facts, &resolver.doses, &resolver.timers, &resolver.counters,
        &resolver.watches, &resolver.actions, &resolver.steps}) {
    if (names->noun == id->what) return {id->id, {names}};
  }
  return {};
}

/// A name that is given and that nobody asks for.
struct Unused {
  const Names* list;
  std::size_t place;
  const std::string& name() const { return list->names[place]; }
  const Where& where() const { return list->places[place]; }
};

std::vector<Unused> unused_in(const Asked& asked) {
  std::vector<Unused> unused;
  for (const Names* list : asked.lists) {
    for (std::size_t place = 0; place < list->names.size(); ++place) {
      const bool given_by_the_file = list->places[place].line != 0 && !list->names[place].empty();
      const bool repeated = std::count(list->names.begin(), list->names.end(), list->names[place]) > 1;
      if (list->is_used(place) || !given_by_the_file || repeated) continue;
      unused.push_back({list, place});
    }
  }
  return unused;
}

std::optional<Unused> nearest_of(const std::vector<Unused>& unused, const std::string& asked) {
  std::vector<std::string> names;
  for (const Unused& each : unused) names.push_back(each.name());
  const auto near = near_word(asked, names);
  if (!near) return std::nullopt;
  return *std::find_if(unused.begin(), unused.end(), [&](const Unused& each) { return each.name() == *near; });
}

std::string lines_of(const std::vector<std::uint32_t>& lines) {
  std::string text = lines.size() == 1 ? "also on line " : "also on lines ";
  for (std::size_t i = 0; i < std::min(lines.size(), kMostLines); ++i) {
    text += (i == 0 ? "" : ", ") + std::to_string(lines[i]);
  }
  if (lines.size() > kMostLines) text += " and " + std::to_string(lines.size() - kMostLines) + " more";
  return text;
}

/// Whether what is written is near a name that is in use: then one that is not has nothing to do with it.
bool is_meant_otherwise(const Kind& kind, const std::string& unused) {
  const auto* id = kind.as<UnknownId>();
  const auto* blank = kind.as<UnknownPlaceholder>();
  const auto near = id ? near_word(id->id, id->known) : blank ? near_word(blank->name, blank->known) : std::nullopt;
  return near && *near != unused;
}

/// How many words of a name stand in no other name of the file: "emregency-measure" has one.
int words_of_its_own(const Resolver& resolver, const std::string& name, const std::string& but) {
  int own = 0;
  for (std::size_t from = 0; from <= name.size();) {
    const std::size_t end = std::min(name.find('-', from), name.size());
    const std::string word = "-" + name.substr(from, end - from) + "-";
    bool known = false;
    for (const Names* list :
         {&resolver.sources, &resolver.thresholds, &resolver.facts, &resolver.doses, &resolver.timers,
          &resolver.counters, &resolver.watches, &resolver.actions, &resolver.steps}) {
      known = known || std::any_of(list->names.begin(), list->names.end(), [&](const std::string& each) {
                return each != but && each != name && ("-" + each + "-").find(word) != std::string::npos;
              });
    }
    own += known ? 0 : 1;
    from = end + 1;
  }
  return own;
}

// Asked for in one place only, the slip is there, unless the given name has a word that stands nowhere else; asked for
// in several, it is where a name so near is given.
Finding finding_of(const Resolver& resolver, Told told) {
  Finding& finding = told.finding;
  const Asked asked = asked_by(resolver, finding.kind);
  const std::vector<Unused> unused = unused_in(asked);
  const auto near = nearest_of(unused, asked.name);
  const bool misspelt_where_given = near && words_of_its_own(resolver, asked.name, near->name()) <
                                                words_of_its_own(resolver, near->name(), asked.name);
  if (near && (!told.also_on.empty() || misspelt_where_given)) {
    const int places = static_cast<int>(told.also_on.size()) + 1;
    return Finding{Severity::error, near->where(), UnusedName{near->name(), near->list->noun, asked.name, places},
                   Because{"the first of these places", finding.where}};
  }
  if (finding.because) return std::move(finding);
  if (near || (unused.size() == 1 && !is_meant_otherwise(finding.kind, unused.front().name()))) {
    const Unused& beside = near ? *near : unused.front();
    finding.because = Because{"the " + beside.list->noun + " `" + beside.name() + "` is used nowhere", beside.where()};
  } else if (!told.also_on.empty()) {
    finding.because = Because{lines_of(told.also_on), {}};
  }
  return std::move(finding);
}

}  // namespace

void tell_unknown_names_once(Resolver& resolver) {
  std::vector<Finding> findings;
  for (Told& told : told_once(std::move(resolver.findings))) findings.push_back(finding_of(resolver, std::move(told)));
  resolver.findings = std::move(findings);
  sort_findings(resolver.findings);
}

}  // namespace rushlight
