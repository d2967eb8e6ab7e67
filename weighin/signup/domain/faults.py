"""What can be wrong with a sign-up, and with its terms."""

from weighin.rules.faults import Sentence, gettext_noop

NOT_OPEN = Sentence("sign_up_not_open", gettext_noop("sign-up for this event is not open: ask the club"))
TOO_MANY = Sentence("sign_up_too_many", gettext_noop("too many sign-ups wait for this event: ask the club"))
TEAM_NAME_TAKEN = Sentence(
    "sign_up_team_taken",
    gettext_noop("a team of this name is signed up already: if it is yours, ask the club; else write another name"),
)
AGE_MISSING = Sentence("sign_up_age_missing", gettext_noop("choose whether this angler is under %(age)s"))
ANGLER_OF_AGE_MISSING = Sentence(
    "sign_up_angler_of_age_missing", gettext_noop("an age or a guardian is given, but no angler: write the name too")
)
GUARDIAN_MISSING = Sentence(
    "sign_up_guardian_missing", gettext_noop("write the name of a parent or guardian: this angler is under %(age)s")
)
GUARDIAN_IS_ANGLER = Sentence(
    "sign_up_guardian_is_angler", gettext_noop("write the name of a parent or guardian, not the angler’s own")
)
GUARDIAN_OF_ADULT = Sentence(
    "sign_up_guardian_of_adult",
    gettext_noop("a guardian is named, but this angler is not said to be under %(age)s: correct one of the two"),
)
CONSENT_MISSING = Sentence("sign_up_consent_missing", gettext_noop("check the consent box: an angler is under %(age)s"))
PHONE_MISSING = Sentence("sign_up_phone_missing", gettext_noop("write a phone number: the club calls it on the day"))
ODD_PHONE = Sentence("sign_up_odd_phone", gettext_noop("'%(phone)s' is no phone number: write its figures"))
ODD_ADDRESS = Sentence(
    "sign_up_odd_address", gettext_noop("'%(email)s' is no e-mail address: write one, such as ann@lake.example")
)
TOO_FAST = Sentence(
    "sign_up_too_fast", gettext_noop("this came faster than anyone can type: wait a few seconds and send it again")
)
TOO_OLD = Sentence("sign_up_too_old", gettext_noop("this page was open for too long: check it and send it again"))
NOT_OURS = Sentence("sign_up_not_ours", gettext_noop("this page could not be read: check it and send it again"))
TRAP = Sentence(
    "sign_up_trap", gettext_noop("a line that must stay blank was filled in, maybe by your browser: send it again")
)
TOO_OFTEN = Sentence(
    "sign_up_too_often",
    gettext_noop("too many sign-ups came from your network within the hour: try again later, or ask the club"),
)
DECIDED_ALREADY = Sentence(
    "sign_up_decided_already", gettext_noop("sign-up %(number)s is decided already (%(state)s): check it again")
)
NO_REFUSAL_REASON = Sentence(
    "sign_up_no_refusal_reason", gettext_noop("the reason is missing: write what the team will read")
)
BEGUN = Sentence("sign_up_begun", gettext_noop("the event has begun: call the club to withdraw"))
NOT_ENTERED = Sentence("sign_up_not_entered", gettext_noop("this team is not entered anymore: ask the club"))
NOT_A_MOMENT = Sentence(
    "sign_up_not_a_moment", gettext_noop("'%(text)s' is no date and time: write them such as Jun 1, 2026, 6:00 PM")
)
CLOSES_BEFORE_IT_OPENS = Sentence(
    "sign_up_closes_before", gettext_noop("it closes before it opens: write a later date and time")
)
