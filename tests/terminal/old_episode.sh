#!/bin/bash
# Started again after hours: what was open is said, and going on with it is the first answer.
. "$(dirname "$0")/screen.sh"
starts_small
sees "Try to wake"; types 1
sees "Has anyone"; types 1
sees "Measure the glucose."; types 52
sees "7 g of sugar now"; types q
sees "EXIT=0"
time_is 08:00
name=two
starts_small
sees "An earlier episode of Mara is still open"
sees "Last at 02:10: Treat here. Low. Give sugar now."
sees "1. Go on with it"
types 1
sees "Going on from 02:10."
