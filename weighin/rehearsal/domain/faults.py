"""Why an event cannot be rehearsed, and what a rehearsal found lost."""

from weighin.rules.faults import Sentence, gettext_noop

REHEARSED_ALREADY = Sentence(
    "rehearsed_already",
    gettext_noop("%(event)s is being rehearsed already: wipe that rehearsal before another begins"),
)
EVENT_HAS_BEGUN = Sentence(
    "event_has_begun",
    gettext_noop("%(event)s has a slip: an event is rehearsed before its first slip. The next one can be"),
)
IS_A_REHEARSAL = Sentence(
    "is_a_rehearsal", gettext_noop("%(event)s is a rehearsal itself: rehearse the event that it is a copy of")
)
NO_DAY_TO_REHEARSE = Sentence(
    "no_day_to_rehearse", gettext_noop("every day of %(event)s is cancelled: there is no day to rehearse")
)
NO_BOAT_TO_REHEARSE = Sentence(
    "no_boat_to_rehearse",
    gettext_noop("no team is entered: add the teams first, or say how many boats are to come in"),
)
NO_REHEARSAL = Sentence("no_rehearsal", gettext_noop("%(event)s has no rehearsal: there is nothing to wipe"))
NOT_A_SPEED = Sentence(
    "not_a_rehearsal_speed", gettext_noop("write a speed from 1 to %(most)s: 60 lets a minute pass in a second")
)
NOT_BOATS = Sentence("not_rehearsal_boats", gettext_noop("write 1 to %(most)s boats"))
NOT_A_SEED = Sentence("not_a_rehearsal_seed", gettext_noop("write a seed from 0 to %(most)s"))
NOT_TAKEN = Sentence(
    "rehearsal_not_taken", gettext_noop("%(what)s of boat %(boat)s was sent and not taken: %(answer)s")
)
NO_ANSWER = Sentence(
    "rehearsal_no_answer", gettext_noop("%(what)s of boat %(boat)s was sent, and nothing answered: %(error)s")
)
LOST = Sentence("rehearsal_lost", gettext_noop("%(what)s of boat %(boat)s was acknowledged and is not there"))
ALTERED = Sentence(
    "rehearsal_altered", gettext_noop("slip of boat %(boat)s: %(field)s was sent as %(sent)s and is saved as %(kept)s")
)
KEPT_TWICE = Sentence(
    "rehearsal_kept_twice",
    gettext_noop("%(what)s of boat %(boat)s was sent again and answered %(answer)s, not already"),
)
LEDGER_BROKEN = Sentence("rehearsal_ledger_broken", gettext_noop("the slips of the rehearsal: %(said)s"))
STANDINGS_DIFFER = Sentence(
    "rehearsal_standings_differ",
    gettext_noop("boat %(boat)s stands at %(kept)s, and what was sent comes to %(sent)s"),
)
EVENT_CHANGED = Sentence("rehearsed_event_changed", gettext_noop("the slips of %(event)s itself: %(said)s"))
