#!/bin/bash
# Wrong keys lose nothing; a mistyped reading is corrected and what was given stays given.
. "$(dirname "$0")/screen.sh"
starts_small
sees "Try to wake"
types ""; sees "This needs an answer."
types 7; sees "The answers here are 1 to 3. Nothing is lost."
types "quien"; sees "The answers here are 1 to 3."
types 1; sees "Has anyone"; types 1; leaves "Has anyone"
sees "Measure the glucose."
types 4.2; sees "4.2 mg/dL cannot be right."
types 7O; sees "is not a number I can read"
types 52
sees "You said: 52 mg/dL"
sees "7 g of sugar now"; types zz; sees "I did not understand \"zz\". Nothing is lost."
types ""
sees "Time left"
types b
sees "1. What is the glucose? 52 mg/dL"
types 1; sees "What is the glucose?"
types 152
sees "The glucose is not low: 152 mg/dL."
types m; sees "What was given so far"; types 3
sees "7 g"
types ""; sees "Enter: close."
types b; sees "Which answer was mistyped?"; types 1; types 520
sees "520 mg/dL is very high."; sees "Type 520 again if the meter shows it, or type what it shows."
types 52; sees "Changed. Now it says: 52 mg/dL"
never_sees "Enter: close."
