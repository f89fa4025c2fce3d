#include "finding/examples.hpp"

namespace rushlight::tests {

void add_sets(std::vector<Example>& rows) {
  rows.push_back({ReadsAsOther{"already-given", "insulin", "glucagon", "es"}, "reads-as-other",
                  "the answer `insulin` of `already-given` has the `es` text of the answer `glucagon`",
                  "look at the texts of `insulin` and `glucagon`: they stand in each other's place; change them over"});
  rows.push_back({SignReadsAs{"awake", "confused", "drowsy", "yes", "en"}, "sign-reads-as",
                  "who chooses this line records `awake`: `confused`, and its `en` text is that of `drowsy`: `yes`",
                  "write the text of `awake`: `confused` here, or change `fact` and `is`"});
  rows.push_back(
      {ShownOtherwise{"pause", "delivery: automatic-pump", "delivery: pump", 6}, "shown-otherwise",
       "`pause` is shown with delivery: automatic-pump, and the 6 others with the same words with delivery: pump",
       "write the `<if>` of the others into `pause`, or other words if it is meant for other children"});
  rows.push_back({PumpUnworn{"pause"}, "pump-unworn",
                  "`pause` is about a pump, and only children on injections are shown it",
                  "write `is=\"pump automatic-pump\"`, or one of the two, into the `<if>` of `pause`"});
  rows.push_back({OtherBlank{"{slow-sip}", "{sip}", 3}, "other-blank",
                  "`{slow-sip}` stands in this sentence, and `{sip}` where it is said elsewhere (3 places)",
                  "write `{sip}` if the same is meant here"});
  rows.push_back({OtherProtocol{"near-low", "ketones", "glucose below 70 mg/dL or 3.9 mmol/L (`low`)", "low", 7},
                  "other-protocol",
                  "step `near-low` leads to protocol `ketones` with glucose below 70 mg/dL or 3.9 mmol/L (`low`), and "
                  "the 7 others "
                  "that look at this to `low`",
                  "write `low` in place of `ketones`"});
  rows.push_back({OtherProtocol{"emergency", "illness", "", "low", 5}, "other-protocol",
                  "step `emergency` leads to protocol `illness`, and the 5 others of this file that leave it to `low`",
                  "write `low` in place of `illness`"});
  rows.push_back(
      {CannotTellElsewhere{"look", "wrong-insulin", "no", "measure", true, true, 3}, "cannot-tell-elsewhere",
       "when nobody can tell `wrong-insulin`, step `look` goes on to `measure` as with the answer `no`, and in "
       "no other place (3 look at both)",
       "take `unknown` out of this rule, and write it into the rule with the graver answer"});
  rows.push_back(
      {CannotTellElsewhere{"look", "fever", "no", "well", true, true, 0}, "cannot-tell-elsewhere",
       "when nobody can tell `fever`, step `look` goes on to `well` as with the answer `no`, which is the calm "
       "one",
       "take `unknown` out of this rule, and write it into the rule with the graver answer"});
  rows.push_back(
      {CannotTellElsewhere{"look", "fever", "yes", "supplies", false, false, 0}, "cannot-tell-elsewhere",
       "step `look` goes the same way with every answer to `fever`, to `supplies`, and only \"can't tell\" leads "
       "to something graver",
       "take `yes` out of this rule, and write it into the rule with `unknown`"});
  rows.push_back(
      {CannotTellElsewhere{"start", "awake", "no", "measure", false, false, 7}, "cannot-tell-elsewhere",
       "`no` of `awake` leads to `measure` here, which is calmer than where \"can't tell\" leads; everywhere "
       "else the two go the same way (7 places)",
       "take `no` out of this rule, and write it into the rule with `unknown`"});
  rows.push_back({ApartInSet{"number", "low", "63 mg/dL, 3.5 mmol/L", "70 mg/dL, 3.9 mmol/L", "illness"},
                  "apart-in-set", "number `low` is 63 mg/dL, 3.5 mmol/L here and 70 mg/dL, 3.9 mmol/L in `illness`",
                  "write the same in both files: a child may go from one to the other within a night"});
  rows.push_back({ApartInSet{"question", "swallow", "", "", "illness"}, "apart-in-set",
                  "question `swallow` reads otherwise in `illness`",
                  "write the same words in both files: one answer counts in both"});
  rows.push_back({SetsMixed{"harbour", "reference", "low"}, "sets-mixed",
                  "this file is of the set `harbour`, and `low` beside it is of `reference`",
                  "look whether a file of another set was copied here; write one name in all files"});
  rows.push_back(
      {SignElsewhere{"drowsy", "yes", "ketones"}, "sign-elsewhere",
       "`drowsy`: `yes` is a sign of getting worse in `ketones` and cannot be told so here, where it is watched",
       "add `<sign fact=\"drowsy\" is=\"yes\">` with its texts to `<worse>`"});
}

}  // namespace rushlight::tests
