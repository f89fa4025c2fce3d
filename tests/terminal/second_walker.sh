#!/bin/bash
# Two walks of one child: the second is told and may take over; the first is told at its next key and may take it back.
. "$(dirname "$0")/screen.sh"
name=first starts_small
name=first sees "Try to wake"; name=first types 1
name=first sees "Has anyone"
name=second; starts_small
sees "Somebody else has this open for Mara."
sees "Since 02:10"
types n
sees "The other screen carries on."
sees "EXIT=1"
name=third; starts_small
sees "Somebody else has this open"
types y
sees "Try to wake Mara."       # whoever takes over looks at the child first
name=first types 1
name=first sees "Somebody else carries on with Mara now."
name=first types y
name=first sees "Try to wake Mara."
name=third types 1
name=third sees "Somebody else carries on with Mara now."
types ""; sees "Type y for yes or n for no."      # Enter alone leaves nothing
types n; sees "EXIT=0"
