#include "finding/examples.hpp"

namespace rushlight::tests {

void add_texts(std::vector<Example>& rows) {
  rows.push_back({MissingLanguage{"es", "headline"}, "missing-language", "`<headline>` has no text in `es`",
                  "add `<es>...</es>` inside `<headline>`"});
  rows.push_back({EmptyText{"es", "headline"}, "empty-text", "the `es` text of `<headline>` is empty",
                  "write the text between `<es>` and `</es>`"});
  rows.push_back({UnknownPlaceholder{"fod", {"food", "child"}}, "unknown-placeholder", "`{fod}` stands for nothing",
                  "write `{food}`"});
  rows.push_back({BadPlaceholder{"{food"}, "bad-placeholder", "a brace in `{food` has no partner", "write `{food}`"});
  rows.push_back({PlaceholderMissing{"food", "es", "en"}, "placeholder-missing",
                  "the `es` text has no `{food}`, which the `en` text has", "write `{food}` in the `es` text too"});
  rows.push_back({BlankUnfilled{"fluid-goal", "the file has no `<fluids>`", "add `<fluids hourly=\"...\"/>`"},
                  "blank-unfilled", "nothing fills `{fluid-goal}` here: the file has no `<fluids>`",
                  "add `<fluids hourly=\"...\"/>`, or take `{fluid-goal}` out of the text"});
  rows.push_back({OtherLanguage{"en", "do", "es"}, "other-language", "the `en` text of `<do>` reads like Spanish",
                  "write it in English, or change the two texts over if each stands in the other's place"});
  rows.push_back({NegationMissing{"es", "do", "en", "never"}, "negation-missing",
                  "the `en` text of `<do>` says `never`, and the `es` text says nothing like it",
                  "look whether both say the same: whoever reads Spanish may be told to do what the other is told to "
                  "leave"});
  rows.push_back({LanguagesApart{"do", "sugar free", "con az\u00FAcar"}, "languages-apart",
                  "the `en` text of `<do>` says `sugar free`, and the `es` text says `con az\u00FAcar`",
                  "write the same in both texts: a family is told what its own language says"});
  rows.push_back({LanguagesApart{"do", "half", ""}, "languages-apart",
                  "the `en` text of `<do>` says `half`, and the `es` text says nothing like it",
                  "write the same in both texts: a family is told what its own language says"});
  rows.push_back({BlankMisread{"again", "at"}, "blank-misread",
                  "behind `at` stands `{again}`, which reads \"in 15 minutes\" or \"at 02:26\"",
                  "write `{until}` behind `at`, or `{again}` alone"});
  rows.push_back({BlankMisread{"until", ""}, "blank-misread",
                  "`{until}` is a time of the clock, like 02:26, and no word such as \"at\" stands before it",
                  "write `at {until}`, or `{again}`"});
  rows.push_back({NumberInText{"30 minutes"}, "number-in-text",
                  "`30 minutes` is written into the text: it stays when the clinic changes its numbers",
                  "write the name of the number in braces, like `{recheck}`, or the words without it"});
  rows.push_back({GarbledText{"\u00C3\u00A9", "\u00E9"}, "garbled-text",
                  "`\u00C3\u00A9` is what `\u00E9` becomes when a file is saved in the wrong encoding",
                  "write the letters anew and save the file as UTF-8"});
  rows.push_back({ReadsAlike{"answers of `awake`", "yes", "no", "es"}, "reads-alike",
                  "the answers of `awake` `yes` and `no` read alike in `es`", "write what each of them means"});
  rows.push_back({OtherContact{"call", "on-call", "clinic-number", "on-call-number"}, "other-contact",
                  "`call` calls `on-call`, and its text gives `{clinic-number}`",
                  "write `{on-call-number}` in the text, or change `contact`"});
  rows.push_back({OtherDoseNamed{"sugar", "snack", "fast-carbohydrate"}, "other-dose-named",
                  "`sugar` gives `snack`, and the words here name `{fast-carbohydrate}`",
                  "write `{snack}` in the text, or change `dose`"});
  rows.push_back({AmountUntold{"sugar", "fast-carbohydrate"}, "amount-untold",
                  "the text of `sugar` does not say how much: it gives `fast-carbohydrate`",
                  "write `{fast-carbohydrate}` or `{food}` in the text"});
  rows.push_back({NumberUntold{"help", "es", "emergency-number"}, "number-untold",
                  "the `es` text of the call `help` does not say which number to call",
                  "write `{emergency-number}` into it"});
  rows.push_back({LanguageLacking{"ketones", "es", "low"}, "language-lacking",
                  "protocol `ketones` has no texts in `es`, and `low`, which has, leads to it",
                  "write the texts of `ketones` in `es` too, and add it to `languages`"});
}

void add_changes(std::vector<Example>& rows) {
  rows.push_back({SeveralNumbers{"most-rounds", {"illness/most-rounds", "ketones/most-rounds"}}, "several-numbers",
                  "`most-rounds` is the name of 2 numbers in this set",
                  "write `illness/most-rounds` or `ketones/most-rounds`"});
  rows.push_back({BandUnnamed{"carb-by-age", {"under-6-years", "from-6-years"}}, "band-unnamed",
                  "`carb-by-age` has 2 bands, and none is named",
                  "write `carb-by-age:under-6-years` or `carb-by-age:from-6-years`"});
  rows.push_back({OtherUnitUnstated{"low", "66 mg/dL", "3.7 mmol/L"}, "other-unit-unstated",
                  "`low` has two values, and only 66 mg/dL is stated",
                  "write `low=66 mg/dL, 3.7 mmol/L`, or take 3.7 mmol/L with `--yes`"});
  rows.push_back({StaleRow{"recheck", "15 min", "20 min"}, "stale-row",
                  "the table was made when `recheck` was `15 min`, and now it is `20 min`",
                  "make the table anew, and change the number there"});
  rows.push_back({NotATable{"a quote sign has no partner", "look for a lone `\"` in this row"}, "not-a-table",
                  "this is not a table of numbers: a quote sign has no partner", "look for a lone `\"` in this row"});
  rows.push_back({NotWritten{"no space is left on the disk", "make room, and give the command again"}, "not-written",
                  "this cannot be written: no space is left on the disk", "make room, and give the command again"});
  rows.push_back({NotWritten{"No space left on device", ""}, "not-written",
                  "this cannot be written: No space left on device", "make room, or name a place that may be written"});
  rows.push_back({ChangedMeanwhile{}, "changed-meanwhile", "somebody else changed this file after it was read here",
                  "look at what it says now, and give the command again"});
}

void add_journals(std::vector<Example>& rows) {
  rows.push_back(
      {JournalDamaged{"event 12 is missing"}, "journal-damaged", "the journal is damaged: event 12 is missing", ""});
  rows.push_back({JournalNewer{"3", "1"}, "journal-newer", "the journal is of format 3, newer than 1",
                  "open it with the newer program that wrote it"});
  rows.push_back({WrongUse{"`walk` needs a protocol", "write `rushlight walk reference/low`"}, "wrong-use",
                  "`walk` needs a protocol", "write `rushlight walk reference/low`"});
}

}  // namespace rushlight::tests
