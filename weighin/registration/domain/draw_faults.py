"""What is wrong with a draw."""

from weighin.rules.faults import Sentence, gettext_noop

NO_SEED = Sentence(
    "draw_without_seed", gettext_noop("the seed is missing: write the words or figures that everybody heard")
)
DRAWN_ALREADY = Sentence(
    "drawn_already",
    gettext_noop("%(purpose)s: draw %(number)s stands. A draw is not repeated: void it with a reason, then draw again"),
)
NOT_CORRECTED = Sentence("draw_not_corrected", gettext_noop("a draw is never changed: void it, then draw again"))
NOT_DRAWN = Sentence("not_drawn", gettext_noop("%(purpose)s: no draw stands, so there is nothing to void"))
VOID_WITHOUT_REASON = Sentence(
    "draw_void_without_reason", gettext_noop("the reason is missing: write why the draw is voided")
)
NOBODY_TO_DRAW = Sentence("nobody_to_draw", gettext_noop("no team is entered: add the teams first"))
ALL_NUMBERED = Sentence(
    "all_boats_numbered", gettext_noop("every entered team has a boat number: there is nothing to draw")
)
NO_FLIGHTS = Sentence("no_flights_to_draw", gettext_noop("the event has no flights: set them up first"))
ONLY_BY_LOT = Sentence("only_by_lot", gettext_noop("%(purpose)s: these are drawn, never given in the order of payment"))
BOATS_HAVE_RECORDS = Sentence(
    "drawn_boats_have_records",
    gettext_noop("boats that this draw numbered have slips, check-ins or other records by now: their numbers stay"),
)
ENTRIES_CLOSED = Sentence(
    "entries_closed_by_draw",
    gettext_noop(
        "entries are closed since draw %(number)s (%(purpose)s) on %(at)s: a director or the desk can void that draw, "
        "which opens them again"
    ),
)
