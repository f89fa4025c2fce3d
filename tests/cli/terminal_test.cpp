#include "cli/terminal.hpp"

#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <cstdlib>

#include "cli/asked_below.hpp"
#include "cli/keyboard.hpp"

namespace rushlight {
namespace {

/// What was written to a pipe.
class Written {
 public:
  Written() { BOOST_REQUIRE(pipe(ends_) == 0); }
  ~Written() { close(ends_[0]); }
  int descriptor() const { return ends_[1]; }
  std::string text() {
    close(ends_[1]);
    std::string all;
    char byte = 0;
    while (read(ends_[0], &byte, 1) == 1) all += byte;
    return all;
  }

 private:
  int ends_[2];
};

void say_into(int descriptor, const std::string& bytes) {
  BOOST_REQUIRE(write(descriptor, bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()));
}

BOOST_AUTO_TEST_SUITE(terminal)

BOOST_AUTO_TEST_CASE(a_pipe_gets_lines_and_not_one_escape_character) {
  Written written;
  Terminal terminal(written.descriptor(), false, false);
  terminal.show({{"EMERGENCY", true}, {"Mara", false}}, "> ");
  terminal.rewrite_above_prompt("Time left 1:00");
  terminal.rewrite_second("Mara, 02:11");
  terminal.ring();
  terminal.leave_prompt();
  terminal.print("Stopped.");
  BOOST_TEST(written.text() == "EMERGENCY\nMara\n> \nStopped.\n");
}

BOOST_AUTO_TEST_CASE(enter_is_neither_yes_nor_no_and_q_is_a_no) {
  const auto agreed = [](const std::string& typed) {
    int keys[2];
    BOOST_REQUIRE(pipe(keys) == 0);
    say_into(keys[1], typed);
    close(keys[1]);
    Written written;
    Terminal terminal(written.descriptor(), false, false);
    Keyboard keyboard(keys[0]);
    const bool yes = agreed_to(terminal, keyboard, Language::en, "Carry on?");
    close(keys[0]);
    return yes;
  };
  BOOST_TEST(agreed("\n\ny\n"));
  BOOST_TEST(agreed("what\nyes\n"));
  BOOST_TEST(!agreed("\nn\ny\n"));
  BOOST_TEST(!agreed("q\ny\n"));
  BOOST_TEST(!agreed(""));
}

BOOST_AUTO_TEST_CASE(no_text_reaches_a_terminal_raw) {
  Written written;
  setenv("TERM", "xterm", 1);
  Terminal terminal(written.descriptor(), true, false);
  terminal.show({{"a\x1b]0;title\a", false}}, "\x9b> ");
  terminal.rewrite_above_prompt("b\x1b[2J");
  terminal.rewrite_second("c\r\x1b[H");
  terminal.print(
      "d\x1b"
      "c");
  const std::string text = written.text();
  for (const char* hostile : {"\x1b]",
                              "\x1b"
                              "c",
                              "\a", "\x9b", "\r\x1b[H"}) {
    BOOST_TEST(text.find(hostile) == std::string::npos);
  }
  BOOST_TEST(text.find("a?]0;title?") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_longer_screen_pushes_the_prompt_and_what_is_typed_down_and_a_shorter_one_pulls_it_up) {
  setenv("TERM", "xterm", 1);
  Written longer;
  Terminal pushed(longer.descriptor(), true, false);
  pushed.show({{"one", false}}, "> ");
  pushed.show_above_prompt({{"one", false}, {"two", false}, {"three", false}});
  const std::string down = longer.text();
  BOOST_TEST(down.find("\x1b[2L") != std::string::npos);
  BOOST_TEST(down.find("\x1b[2B") != std::string::npos);
  BOOST_TEST(down.find("\x1b[3H\x1b[2Kthree") != std::string::npos);
  BOOST_TEST(down.find("> ") == down.rfind("> "));  // the prompt is never written a second time

  Written shorter;
  Terminal pulled(shorter.descriptor(), true, false);
  pulled.show({{"one", false}, {"two", false}, {"three", false}}, "> ");
  pulled.show_above_prompt({{"one", false}});
  const std::string up = shorter.text();
  BOOST_TEST(up.find("\x1b[2M") != std::string::npos);
  BOOST_TEST(up.find("\x1b[2A") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(bold_is_left_out_where_it_is_not_wanted) {
  setenv("TERM", "xterm", 1);
  setenv("NO_COLOR", "1", 1);
  Written quiet;
  Terminal(quiet.descriptor(), true, false).show({{"EMERGENCY", true}}, "> ");
  BOOST_TEST(quiet.text().find("\x1b[1m") == std::string::npos);
  unsetenv("NO_COLOR");
  Written strong;
  Terminal(strong.descriptor(), true, false).show({{"EMERGENCY", true}}, "> ");
  BOOST_TEST(strong.text().find("\x1b[1mEMERGENCY\x1b[0m") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_dumb_terminal_gets_plain_lines_and_the_beep) {
  setenv("TERM", "dumb", 1);
  Written written;
  Terminal terminal(written.descriptor(), true, false);
  terminal.show({{"EMERGENCY", true}}, "> ");
  terminal.ring();
  BOOST_TEST(written.text() == "EMERGENCY\n> \a");
  setenv("TERM", "xterm", 1);
}

BOOST_AUTO_TEST_CASE(the_keyboard_gives_whole_lines_and_then_the_end) {
  Written pipe_in;
  int ends[2];
  BOOST_REQUIRE(pipe(ends) == 0);
  Keyboard keyboard(ends[0]);
  using std::chrono::milliseconds;
  BOOST_TEST((keyboard.wait(milliseconds{1}).kind == Typed::Kind::nothing));
  say_into(ends[1], "1\r\n52\nhalf");
  BOOST_TEST(keyboard.wait(milliseconds{50}).text == "1");
  BOOST_TEST(keyboard.wait(milliseconds{50}).text == "52");
  BOOST_TEST((keyboard.wait(milliseconds{1}).kind == Typed::Kind::nothing));
  close(ends[1]);
  const Typed last = keyboard.wait(milliseconds{50});
  BOOST_TEST((last.kind == Typed::Kind::line));
  BOOST_TEST(last.text == "half");
  BOOST_TEST((keyboard.wait(milliseconds{50}).kind == Typed::Kind::end));
  close(ends[0]);
}

BOOST_AUTO_TEST_CASE(an_endless_line_is_cut_and_control_characters_are_marks) {
  int ends[2];
  BOOST_REQUIRE(pipe(ends) == 0);
  Keyboard keyboard(ends[0]);
  for (int round = 0; round < 20; ++round) {
    say_into(ends[1], std::string(1000, 'a'));
    BOOST_TEST((keyboard.wait(std::chrono::milliseconds{50}).kind == Typed::Kind::nothing));
  }
  say_into(ends[1], "\n\x1b[A\n");
  BOOST_TEST(keyboard.wait(std::chrono::milliseconds{50}).text.size() == 2000);
  BOOST_TEST(keyboard.wait(std::chrono::milliseconds{50}).text == "?[A");
  close(ends[0]);
  close(ends[1]);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
