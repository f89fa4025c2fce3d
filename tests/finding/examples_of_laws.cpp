#include "finding/examples.hpp"

namespace rushlight::tests {

void add_laws(std::vector<Example>& rows) {
  rows.push_back(
      {NeverBroken{"no-insulin-when-low", "glucose 60 mg/dL", "correct", "does `pen` (insulin)"}, "never-broken",
       "against law `no-insulin-when-low`, glucose 60 mg/dL leads to step `correct`, which does `pen` (insulin)",
       "let a rule above this one take glucose 60 mg/dL to another step than `correct`, or change the law "
       "`no-insulin-when-low`"});
  rows.push_back(
      {CallTooLate{"on-the-phone", "glucose below 54 mg/dL", "clinic-now", false, "45 min", "30 min",
                   "0 min: `measure`, `treat`; 15 min: `treat`; 30 min: `treat`; 45 min: `call`", true},
       "call-too-late",
       "against law `on-the-phone`, a child with glucose below 54 mg/dL all night can come to `clinic-now` only "
       "after 45 min when every question is answered at once; the law says 30 min",
       "look at this night (0 min: `measure`, `treat`; 15 min: `treat`; 30 min: `treat`; 45 min: `call`) and shorten a "
       "wait, or let a counter reach its limit sooner; or write `45 min` into the law if the clinic wants it so"});
  rows.push_back({CallNever{"on-the-phone", "glucose below 54 mg/dL", "clinic-now", "goes round for ever",
                            "0 min: `measure`, `treat`; 15 min: `treat`", true},
                  "call-never",
                  "against law `on-the-phone`, a child with glucose below 54 mg/dL all night may never come to "
                  "`clinic-now`: the night goes round for ever",
                  "look at this night (0 min: `measure`, `treat`; 15 min: `treat`) and let it lead to a step that is "
                  "`clinic-now` or "
                  "graver"});
  rows.push_back(
      {CallNever{"on-the-phone", "glucose below 54 mg/dL", "clinic-now", "ends at `well`", "0 min: `measure`, `well`",
                 false},
       "call-never",
       "against law `on-the-phone`, nothing shows that a child with glucose below 54 mg/dL all night comes to "
       "`clinic-now`",
       "look at this night (0 min: `measure`, `well`), through which the program could not be led, and let it lead "
       "to a step that is `clinic-now` or graver"});
  rows.push_back({LawNotShown{"on-the-phone"}, "law-not-shown",
                  "nothing is said about law `on-the-phone`: there are too many nights to look through",
                  "say more of the child in `on-the-phone`, or leave the law out"});
  rows.push_back(
      {WorseIsCalmer{"more-ketones", "ketones 3 mmol/L", "watch", "home", "ketones 2.9 mmol/L", "call", "clinic-now"},
       "worse-is-calmer",
       "against law `more-ketones`, ketones 3 mmol/L leads to `watch` (home), and ketones 2.9 mmol/L to `call` "
       "(clinic-now)",
       "let ketones 3 mmol/L lead to a step that is `clinic-now` or graver, or change the law `more-ketones`"});
  rows.push_back({WorseTurned{"more-ketones", "ketones", "lower"}, "worse-turned",
                  "the law `more-ketones` says that a child is worse with a lower `ketones`",
                  "write `worse=\"higher\"`"});
  rows.push_back({LawIdle{"deep-breathing", "no step asks for all that it reads"}, "law-idle",
                  "the law `deep-breathing` refuses nothing: no step asks for all that it reads",
                  "mend `deep-breathing`, or take it out: whoever reads it believes it holds"});
  rows.push_back(
      {UnknownIsCalm{"lower-in-a-low", "measure", "glucose", "in-range"}, "unknown-is-calm",
       "when nobody can tell `glucose`, step `measure` ends the night at `in-range`, as with the best answer",
       "let it lead where a bad answer leads, or to a call"});
  rows.push_back({UnknownIsCalm{"", "look", "glucose", "not-low"}, "unknown-is-calm",
                  "when nobody can tell `glucose`, step `look` ends the night at `not-low`",
                  "let it lead where a bad answer leads, or to a call"});
  rows.push_back(
      {LookOutside{"sugar-works-first", "treat", "waits", "night-later", "2 h", "10 min", "20 min"}, "look-outside",
       "step `treat` waits 2 h (`night-later`); the law `sugar-works-first` says at least 10 min, at most 20 min",
       "name a time that the law allows in step `treat`, or change the law"});
  rows.push_back({HardToRead{"texts of step `treat` are", "en", "8.2", "6", "administration", 14}, "hard-to-read",
                  "the `en` texts of step `treat` are of grade 8.2, above 6",
                  "write shorter words than `administration`, and sentences of fewer than 14 words"});
  rows.push_back({ExampleDiffers{"third-low-calls", "30 min", "step", "`treat`", "`call-and-treat`"}, "example-differs",
                  "in example `third-low-calls`, 30 min after it began, the step is `treat`, and `call-and-treat` was "
                  "expected",
                  "mend the protocol, or write `treat` into the example if the clinic wants it so"});
  rows.push_back({ExampleStuck{"third-low-calls", "30 min", "`sugar` is not among the actions of `still-low`"},
                  "example-stuck",
                  "example `third-low-calls` cannot go on 30 min after it began: `sugar` is not among the actions of "
                  "`still-low`",
                  "tell what the screen asks for there, or take this line out of the example"});
  rows.push_back({UnknownStart{}, "unknown-start", "the protocol does not name its first step",
                  "add `start=\"...\"` to `<protocol>`"});
}

}  // namespace rushlight::tests
