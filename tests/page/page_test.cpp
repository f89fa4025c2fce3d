#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <regex>

#include "cli/child_file.hpp"
#include "cli/night_file.hpp"
#include "cli/page/page_data.hpp"
#include "cli/page/page_screen.hpp"
#include "cli/page/page_walk.hpp"
#include "cli/page/touch_words.hpp"
#include "wire/json_tree.hpp"
#include "wire/protocol_model.hpp"

namespace rushlight {
namespace {

std::vector<const Protocol*> protocols_of(const ProtocolSet& set) {
  std::vector<const Protocol*> protocols;
  for (const LoadedProtocol& loaded : set.protocols) protocols.push_back(&loaded.checked.protocol());
  return protocols;
}

const ProtocolSet& reference() {
  static const ProtocolSet set = embedded_set("reference");
  return set;
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  BOOST_REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

/// A page in this process, without a browser.
class OnThePage {
 public:
  OnThePage() {
    const std::string opened =
        walk_.open(text_from_protocols(protocols_of(reference())), demo_child(kDemoDay).bytes, "2026-03-01");
    BOOST_REQUIRE(opened.find("\"error\"") == std::string::npos);
  }
  std::string asks(const std::string& request) { return answer_ = walk_.call(request); }
  std::string begins(const std::string& protocol = "low", const std::string& language = "en") {
    return asks(R"({"do":"begin","protocol":")" + protocol + R"(","language":")" + language +
                R"(","nights":[],"at":"2026-03-01T02:10:00-05:00","ticks":1})");
  }
  std::string taps(const std::string& typed, const std::string& clock = "02:10", int number = 0) {
    return asks(R"({"do":"tap","typed":")" + typed + R"(","screen":)" +
                std::to_string(number == 0 ? screen() : number) + R"(,"at":"2026-03-01T)" + clock +
                R"(:00-05:00","ticks":2})");
  }
  int screen() const {
    const Read<JsonNode> read = json_from_text(answer_, "answer", {1 << 20, 12});
    BOOST_REQUIRE(read.value);
    const auto number = decimal_from_text(read.value->find("screen")->find("number")->text);
    return static_cast<int>(std::get<Decimal>(number).micros() / Decimal::kMicrosPerOne);
  }
  bool says(const std::string& text) const { return answer_.find(text) != std::string::npos; }
  const std::string& answer() const { return answer_; }

 private:
  PageWalk walk_;
  std::string answer_;
};

/// A new night, one day after a low that was treated; `plan` is what that one was walked with. Open: "}" ends it.
std::string begin_after(const std::string& plan, const std::string& deed) {
  return R"({"do":"begin","protocol":"low","language":"en","at":"2026-03-01T02:10:00-05:00","ticks":1,"nights":[)"
         R"({"protocol":"low","began":"2026-02-28T02:10:00-05:00","plan":")" +
         plan +
         R"(","lines":["{\"at\":\"2026-02-28T02:10:00-05:00\",\"answer\":{\"awake\":\"yes\",\"already-given\":\"no\",)"
         R"(\"swallow\":\"yes\",\"reading-from\":\"meter\",\"symptoms\":\"yes\",\"glucose\":\"52 mg/dL\"}}",)"
         R"("{\"at\":\"2026-02-28T02:11:00-05:00\",\"done\":)" +
         deed + R"(}"]}])";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(page)

BOOST_AUTO_TEST_CASE(protocols_read_back_from_their_model_are_the_very_same) {
  for (const char* name : {"reference", "harbour-lane"}) {
    const ProtocolSet set = embedded_set(name);
    const std::string text = text_from_protocols(protocols_of(set));
    const auto read = protocols_from_text(text);
    BOOST_REQUIRE(read.value);
    BOOST_TEST(read.value->size() == set.protocols.size());
    std::vector<const Protocol*> again;
    for (const Protocol& protocol : *read.value) again.push_back(&protocol);
    BOOST_TEST((text_from_protocols(again) == text));
    BOOST_TEST(read.value->front().steps.size() == set.protocols.front().checked.protocol().steps.size());
  }
}

BOOST_AUTO_TEST_CASE(model_that_was_cut_or_changed_is_refused) {
  const std::string text = text_from_protocols(protocols_of(reference()));
  for (std::size_t cut = 0; cut < text.size(); cut += cut < 200 ? 1 : 997)
    BOOST_TEST(!protocols_from_text(std::string_view(text).substr(0, cut)).value, "cut at " << cut);
  for (std::size_t at = 0; at < text.size(); at += at < 200 ? 1 : 997) {
    std::string changed = text;
    changed[at] = static_cast<char>(changed[at] ^ 1);
    BOOST_TEST(!protocols_from_text(changed).value, "changed at " << at);
  }
  BOOST_TEST(!protocols_from_text(text + " ").value);
}

BOOST_AUTO_TEST_CASE(screen_of_the_page_says_what_the_terminal_says_and_what_each_button_types) {
  OnThePage page;
  page.begins();
  BOOST_TEST(page.says(R"("word":"Treat here")"));
  BOOST_TEST(page.says(R"({"text":"Wakes and talks","by":"1"})"));
  BOOST_TEST(page.says(R"({"text":"I can't tell","by":"t"})"));
  page.taps("1");
  page.taps("1");
  BOOST_TEST(page.says(R"("marks":["LO","HI"])"));
  BOOST_TEST(page.says(R"("unit":"mg/dL")"));
  page.taps("52");
  page.taps("1");
  BOOST_TEST(page.says("Done: all 7 g went in"));
  page.taps("");
  BOOST_TEST(page.says(R"("seconds":900)"));
}

BOOST_AUTO_TEST_CASE(tap_on_a_screen_that_has_changed_meanwhile_is_not_taken) {
  OnThePage page;
  page.begins();
  page.taps("1");
  page.taps("1");
  page.taps("62");
  page.taps("1");
  page.taps("");
  const int before = page.screen();
  page.taps("x", "02:40", before);
  BOOST_TEST(page.says("The screen just changed."));
  BOOST_TEST(page.says(R"("lines":[],"began")"));
}

BOOST_AUTO_TEST_CASE(sugar_of_the_night_before_is_told_to_the_next_whether_all_was_done_or_it_was_named) {
  for (const char* deed : {"true", R"({\"action\":\"sugar-very-low\",\"outcome\":\"given\"})"}) {
    OnThePage page;
    page.asks(begin_after("", deed) + "}");
    BOOST_TEST(page.says(R"(\"treated\":[\"2026-02-28T02:11:00-05:00\"])"), deed << ": " << page.answer());
    BOOST_TEST(page.says(R"(\"glucose\":\"52 mg/dL\")"));
  }
}

BOOST_AUTO_TEST_CASE(night_before_that_was_walked_with_another_plan_is_read_with_that_one) {
  OnThePage page;
  page.asks(begin_after("other", "true") + "}");
  BOOST_TEST(page.says(R"(\"glucose\":\"52 mg/dL\")"));  // its lines alone say that much
  BOOST_TEST(page.says(R"(\"treated\":[])"));
  JsonWriter plan;
  plan.begin_object().key("sum").text("other").key("model").text(text_from_protocols(protocols_of(reference())));
  std::string child = demo_child(kDemoDay).bytes;
  std::replace(child.begin(), child.end(), '\n', ' ');  // as the page sends it
  plan.key("child").text(child).end_object();
  page.asks(begin_after("other", "true") + R"(,"plans":[)" + plan.json() + "]}");
  BOOST_TEST(page.says(R"(\"treated\":[\"2026-02-28T02:11:00-05:00\"])"), page.answer().substr(0, 600));
}

BOOST_AUTO_TEST_CASE(no_line_of_the_page_names_a_key) {
  // "Type 1 diabetes" and "Type the number, or LO, or HI" name none: a pad stands below the latter.
  const std::regex key(
      "Enter|Intro|Type ([a-z]|[0-9]+|its letter|the word|the number of)\\b(?! [Dd]iabetes)|\\b[amw]: |"
      "Escriba ([a-z]|[0-9]+|su letra|la palabra|el n\u00famero de su)(?![a-z])");
  BOOST_TEST(std::regex_search(say(kBeforeThen, Language::en), key));
  BOOST_TEST(std::regex_search(say(kDoseStillOpen, Language::es), key));
  for (const char* language : {"en", "es"}) {
    for (const char* protocol : {"low", "ketones", "illness"}) {
      OnThePage page;
      page.begins(protocol, language);
      const char* typed[] = {"1", "1", "52", "1", "m", "", "b", "", "r", "", "", "w", "3", "", "1", "c", "", "1", "1"};
      for (const char* touch : typed) {
        const std::size_t from = page.answer().find("\"said\":");
        const std::string shown = page.answer().substr(from, page.answer().find("\"main\"") - from);
        BOOST_TEST(!std::regex_search(shown, key), protocol << ", before " << touch << ": " << shown);
        page.taps(touch);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(only_digits_are_dialled) {
  BOOST_TEST(dialled("+1 (555) 010-0999") == "+15550100999");
  BOOST_TEST(dialled("112") == "112");
  BOOST_TEST(dialled("555 0999 <b>") == "5550999");
  BOOST_TEST(dialled("javascript:alert(1)") == "");
  BOOST_TEST(dialled("call mum") == "");
}

BOOST_AUTO_TEST_CASE(data_of_a_page_holds_no_letter_that_ends_its_script) {
  const PageData data =
      page_data({reference(), with(demo_child(kDemoDay).bytes, "Mika", "</script><!--\u2028"), Language::en, "2026-03-01"});
  for (const char* letters : {"<", "\u2028", "\u2029"}) BOOST_TEST(data.json.find(letters) == std::string::npos);
  BOOST_TEST(data.json.find("\\u003c/script>\\u003c!--\\u2028") != std::string::npos);
  BOOST_TEST(html_text("<a href=\"x\">&") == "&lt;a href=&quot;x&quot;&gt;&amp;");
}

BOOST_AUTO_TEST_CASE(night_that_is_not_whole_is_refused) {
  const std::string night =
      "{\"rushlight\":\"night\",\"format\":1,\"child\":\"Mika\",\"began\":\"2026-03-01T02:10:00-05:00\",\"set\":\"s\","
      "\"protocol\":\"low\",\"version\":\"1\",\"ended\":\"\",\"child_bytes\":3,\"protocol_bytes\":4,\"events\":2}\n"
      "abc\n<p/>\n{1}\n{2}\n";
  const auto whole = night_from_bytes(night, "file");
  BOOST_REQUIRE(whole.value);
  BOOST_TEST(whole.value->start.child_bytes == "abc");
  BOOST_TEST(whole.value->start.protocol_bytes == "<p/>");
  BOOST_TEST(whole.value->lines.size() == 2U);
  for (std::size_t cut = 0; cut < night.size(); ++cut)
    BOOST_TEST(!night_from_bytes(night.substr(0, cut), "file").value, "cut at " << cut);
  BOOST_TEST(!night_from_bytes(night + "{3}\n", "file").value);
  BOOST_TEST(!night_from_bytes(with(night, "\"format\":1", "\"format\":2"), "file").value);
  BOOST_TEST(!night_from_bytes(with(night, "\"protocol_bytes\":4", "\"protocol_bytes\":-4"), "file").value);
  BOOST_TEST(!night_from_bytes(with(night, "\"protocol_bytes\":4", "\"protocol_bytes\":99999999999999"), "file").value);
}

BOOST_AUTO_TEST_SUITE_END()
}  // namespace rushlight
