#!/bin/bash
# A night with a child who stops breathing: numbers are steps, letters are what happens meanwhile, and the dispatcher goes on
# leading. Then, on a sick day, insulin that only the clinic can say, and a drink that could be a glucose.
. "$(dirname "$0")/screen.sh"
starts walk --protocol low --child "$work/child.json" --journal "$journal"
sees "Try to wake"; types 1
sees "Has anyone"; types 1
sees "Measure the glucose"; types 52
sees "Meter or sensor"; types 1
sees "Give 7 g"; types ""
sees "Time left"
types w
sees "Does not breathe as usual"; types 4
sees_first "EMERGENCY"
sees "f. Breathes as usual"
types 4
sees "The answers here are 1 to 3."; sees "Not breathing as usual. The dispatcher leads."
types ""
sees "How did the call go?"; sees "- Type 1 diabetes. Does not breathe as usual"
types 1
sees "Marked: Someone answered"; sees "Not breathing as usual. The dispatcher leads."
never_sees "Call 555 0999"
types f
sees "Try to wake"; never_sees "glucagon"
types 1
sees "Awake again. Nothing by mouth yet."; never_sees "Call 555 0999"

name=two
starts walk --protocol ketones --child "$work/child.json" --journal "$work/other.db"
sees "Try to wake"; types 1
sees "Has anyone"; types 1
sees "How does"; types 1
sees "drowsy"; types 1
sees "Measure the glucose"; types 315
sees "Now the blood ketones"; types 1
sees "You said: 1 mmol/L"; types 0
sees "belly hurt"; types 1
sees "last rapid-acting insulin"; types t
sees "Then say if the clinic gave a dose."; types ""
sees "Did the clinic give a dose?"; never_sees "It is done, all of it"
types 1
sees "How did the call go?"; sees "- Type 1 diabetes: which dose?"
types 1
sees "Did the clinic give a dose?"; types 2
sees "How much went in?"; types 1
sees "How many units went in?"; types 2.5
sees "Extra rapid-acting insulin: 2.5 units"
types 60
sees "60: of what?"; types 1
sees "Drunk: 60 mL. It is counted."
types c
sees "They say: come to the hospital"
