#include "protocol/meanings.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "protocol/text_words.hpp"

namespace rushlight {

namespace {

/// Words that stand for things which are not the same, in both languages: one side behind the other. `turned`: with a
/// no in front, one means the other. "_" joins two words, "*" takes every ending.
struct Opposites {
  bool turned;
  std::string_view english, spanish;
};
constexpr bool kTurned = true, kOther = false;
constexpr Opposites kOpposites[] = {
    {kTurned, "sugary juice lemonade | sugar_free unsweetened", "con_azúcar jugo* zumo* azucarad* | sin_azúcar"},
    {kTurned,
     "low lows lower fall falls fell falling come_down came_down go_down goes_down gone_down went_down | "
     "high highs higher rise rises risen rose gone_up go_up goes_up went_up come_up",
     "baja bajas bajo bajos baje bajen bajan bajó bajaron bajar bajando | alta altas alto altos sube suben suba suban "
     "subió subieron subir subiendo"},
    {kTurned, "below under less_than fewer_than | above over more_than", "menos_de debajo | más_de encima"},
    {kTurned, "more | less fewer", "más | menos"},
    {kTurned, "the_side one_side | the_back her_back his_back their_back | face_down",
     "de_lado un_lado de_costado | boca_arriba de_espaldas | boca_abajo"},
    {kTurned,
     "leave_on pump_on it_on keep keeps go_on goes_on continue* start starts resume* | stop stops pause pauses "
     "turn_off switch_off",
     "en_marcha siga sigan sigue siguen continú* continu* mant* reanud* | pausa pare paren parar quite quiten quitar "
     "apag* suspend* deje_de dejar_de detenga*"},
    {kTurned, "before | after afterwards then later", "antes | después tras luego"},
    {kTurned, "morning | night tonight evening", "mañana | noche noches nocturn*"},
    {kTurned, "common often | rare rarely seldom", "común comunes frecuente* menudo mucho | rar*"},
    {kTurned, "fast quick quickly rapid | slow slowly", "rápid* | lent* despacio"},
    {kTurned, "open opens unlock* | close closes closed shut", "abr* | cierr* cerr*"},
    {kTurned, "stay stays close near beside | leave leaves away", "quéd* qued* cerca lado | alej* deje dejen dejar"},
    {kTurned, "new another other fresh clean different | old same used",
     "nuev* otr* limpi* distint* | viej* mism* usad*"},
    {kTurned, "all every everything whole | nothing none", "tod* cada entero | nada ningun* ningún*"},
    {kTurned, "better | worse", "mejor* | peor* empeor*"},
    {kTurned, "younger | older", "menor* | mayor*"},
    {kTurned, "first | last", "primer* antes | última* último*"},
    {kOther, "insulin | glucagon | sugar sugary", "insulina* | glucagón | azúcar azucarad*"},
    {kOther, "glucose | ketone*", "glucosa | cetona*"},
    {kOther, "blood | urine", "sangre | orina*"},
    {kOther, "trace | small | moderate | large", "trazas | poc* | moderad* | much*"},
    {kOther, "stay stays | come_to go_to comes_to drive drives", "quéd* qued* | veng* vay* acud* manej* conduz*"},
    {kOther, "swallow* | wake* awake | breath* | seizure* | drink* | belly | vomit*",
     "trag* | despert* despiert* | respir* boquead* aire | convuls* | beb* toma* | barriga estómago | vomit* vómit*"},
    {kOther, "pen | pump | meter | sensor", "pluma | bomba | medidor | sensor"},
    {kOther, "seconds | minute minutes | hour hours | day days | week weeks | month months",
     "segundos | minuto* | hora horas | día días | semana* | mes meses"},
};
constexpr std::size_t kOppositesCount = std::size(kOpposites), kOfTime = kOppositesCount - 1;

struct Meant {
  std::string_view before, word;
  bool begins;
  std::uint8_t row, side;
};

std::vector<std::string_view> split_at(std::string_view text, char sign) {
  std::vector<std::string_view> parts;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t end = std::min(text.find(sign, from), text.size());
    if (end > from) parts.push_back(text.substr(from, end - from));
    from = end + 1;
  }
  return parts;
}

/// By the first byte of a word: nearly all words are left after one look.
using MeantWords = std::array<std::vector<Meant>, 256>;

MeantWords words_meant(Language language) {
  MeantWords words;
  for (std::size_t row = 0; row < kOppositesCount; ++row) {
    const std::string_view all = language == Language::en ? kOpposites[row].english : kOpposites[row].spanish;
    std::uint8_t side = 0;
    for (const std::string_view words_of_side : split_at(all, '|')) {
      for (std::string_view word : split_at(words_of_side, ' ')) {
        const bool begins = word.back() == '*';
        if (begins) word.remove_suffix(1);
        const std::size_t joint = word.find('_');
        const std::string_view before = joint == std::string_view::npos ? "" : word.substr(0, joint);
        if (joint != std::string_view::npos) word.remove_prefix(joint + 1);
        words[static_cast<unsigned char>(word.front())].push_back(
            {before, word, begins, static_cast<std::uint8_t>(row), side});
      }
      ++side;
    }
  }
  return words;
}

const MeantWords& words_meant_in(Language language) {
  static const std::array<MeantWords, 2> kWords = {words_meant(Language::en), words_meant(Language::es)};
  return kWords[static_cast<std::size_t>(language)];
}

/// Calls `take` with each of the words of a text that mean something, and with the words as they stand there.
template <class Take>
void each_meaning(std::string_view text, Language language, Take take) {
  const MeantWords& words = words_meant_in(language);
  std::array<char, 16> kept{};
  std::string_view before;
  each_word(text, [&](std::string_view word) {
    for (const Meant& meant : words[static_cast<unsigned char>(word.front())]) {
      const bool is_it = meant.begins ? word.starts_with(meant.word) : word == meant.word;
      if (is_it && (meant.before.empty() || meant.before == before)) take(meant, word);
    }
    std::copy(word.begin(), word.end(), kept.begin());
    before = std::string_view(kept.data(), word.size());
    return true;
  });
}

/// What a text says of each row: one bit for each side.
using Meanings = std::array<std::uint8_t, kOppositesCount>;

Meanings meanings_of(std::string_view text, Language language) {
  Meanings all{};
  each_meaning(text, language, [&](const Meant& meant, std::string_view) {
    all[meant.row] = static_cast<std::uint8_t>(all[meant.row] | 1U << meant.side);
  });
  return all;
}

std::string word_for(std::string_view text, Language language, std::size_t row) {
  std::string found;
  each_meaning(text, language, [&](const Meant& meant, std::string_view word) {
    if (meant.row != row || !found.empty()) return;
    if (!meant.before.empty()) found = std::string(meant.before) + " ";
    found += word;
  });
  return found;
}

struct Counting {
  std::string_view word, number;
};
constexpr Counting kCountingInEnglish[] = {{"once", "1"},  {"twice", "2"}, {"both", "2"}, {"two", "2"},
                                           {"three", "3"}, {"four", "4"},  {"five", "5"}, {"six", "6"},
                                           {"seven", "7"}, {"eight", "8"}, {"nine", "9"}, {"ten", "10"}};
constexpr Counting kCountingInSpanish[] = {{"ambos", "2"},  {"ambas", "2"}, {"dos", "2"},  {"tres", "3"},
                                           {"cuatro", "4"}, {"cinco", "5"}, {"seis", "6"}, {"siete", "7"},
                                           {"ocho", "8"},   {"nueve", "9"}, {"diez", "10"}};

struct Counted {
  std::string number, written;
  friend bool operator==(const Counted& one, const Counted& other) { return one.number == other.number; }
  friend bool operator<(const Counted& one, const Counted& other) { return one.number < other.number; }
};

void add_figures(std::string_view text, std::vector<Counted>& numbers) {
  const auto is_one = [](char c) { return c >= '0' && c <= '9'; };
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] == '{') at = std::min(text.find('}', at), text.size() - 1);
    if (!is_one(text[at])) continue;
    std::size_t end = at;
    while (end < text.size() && (is_one(text[end]) || text[end] == '.' || text[end] == ',')) ++end;
    while (!is_one(text[end - 1])) --end;
    std::string number(text.substr(at, end - at));
    const std::string written = number;
    std::replace(number.begin(), number.end(), ',', '.');
    if (number.find('.') != std::string::npos) number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
    numbers.push_back({std::move(number), written});
    at = end - 1;
  }
}

/// The numbers in a text, in figures or in words, each once.
std::vector<Counted> numbers_in(std::string_view text, Language language) {
  std::vector<Counted> numbers;
  add_figures(text, numbers);
  bool behind_one = false;  // "una vez"
  each_word(text, [&](std::string_view word) {
    if (language == Language::es && behind_one && word == "vez") numbers.push_back({"1", "una vez"});
    behind_one = word == "una";
    const auto add = [&](const Counting& counting) {
      if (counting.word == word) numbers.push_back({std::string(counting.number), std::string(word)});
    };
    if (language == Language::en) std::for_each(std::begin(kCountingInEnglish), std::end(kCountingInEnglish), add);
    if (language == Language::es) std::for_each(std::begin(kCountingInSpanish), std::end(kCountingInSpanish), add);
    return true;
  });
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  return numbers;
}

/// A number that `all` has and `others` has not.
std::string first_beyond(const std::vector<Counted>& all, const std::vector<Counted>& others) {
  for (const Counted& each : all) {
    if (std::find(others.begin(), others.end(), each) == others.end()) return each.written;
  }
  return all.front().written;
}

std::string half_in(std::string_view text, Language language) {
  std::string found;
  each_word(text, [&](std::string_view word) {
    const bool half = language == Language::en ? word == "half" : word == "mitad" || word == "medio" || word == "media";
    if (half) found = word;
    return !half;
  });
  return found;
}

}  // namespace

std::optional<SaidApart> said_apart(std::string_view english, std::string_view spanish, bool one_says_no) {
  const std::vector<Counted> numbers = numbers_in(english, Language::en), others = numbers_in(spanish, Language::es);
  if (!numbers.empty() && !others.empty() && numbers != others)
    return SaidApart{first_beyond(numbers, others), first_beyond(others, numbers)};
  const std::string half = half_in(english, Language::en), other_half = half_in(spanish, Language::es);
  // "La dosis media" is no half.
  if (!half.empty() && other_half.empty()) return SaidApart{half, ""};
  if (half.empty() && other_half == "mitad") return SaidApart{"", other_half};
  const Meanings here = meanings_of(english, Language::en), there = meanings_of(spanish, Language::es);
  for (std::size_t row = 0; row < kOppositesCount; ++row) {
    if (here[row] == 0 || there[row] == 0 || (here[row] & there[row]) != 0) continue;
    if (kOpposites[row].turned && one_says_no) continue;
    if (row == kOfTime && numbers != others) continue;  // "24 hours" is "un día"
    return SaidApart{word_for(english, Language::en, row), word_for(spanish, Language::es, row)};
  }
  return std::nullopt;
}

bool turns_the_no(std::string_view denied, Language language, std::string_view said, Language other) {
  const Meanings here = meanings_of(denied, language), there = meanings_of(said, other);
  for (std::size_t row = 0; row < kOppositesCount; ++row) {
    if (kOpposites[row].turned && there[row] != 0 && (here[row] & ~there[row]) != 0) return true;
  }
  return false;
}

}  // namespace rushlight
