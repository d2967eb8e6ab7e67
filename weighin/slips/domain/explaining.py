"""The lines that made one slip's score, as in a ledger: what the scale showed, every deduction, the total."""

from dataclasses import dataclass
from decimal import Decimal

from django.utils.translation import gettext, ngettext

from weighin.checkin.domain.arrival import arrival_counted
from weighin.events.domain.clock import clock
from weighin.events.domain.table import Table
from weighin.records.domain.rows import value_of
from weighin.rules import scoring
from weighin.rules.faults import Faults
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import ZERO, Score
from weighin.rules.slips import Slip
from weighin.rules.values import plain
from weighin.rules.weights import spoken
from weighin.rules.words import scores as words
from weighin.slips.domain.values import SlipData, rules_slip
from weighin.slips.models import WeighSlip
from weighin.ui.templatetags.ui import taken_off, weight


@dataclass(frozen=True)
class ScoreLine:
    """One line: its words and its figures; ``nothing`` marks a line that says what was not taken off."""

    words: str
    figures: str
    nothing: bool = False


@dataclass(frozen=True)
class Scored:
    """A slip with its score and the lines whose figures add up to the total."""

    slip: Slip
    score: Score
    lines: tuple[ScoreLine, ...]
    big_fish: str

    @property
    def taken_off(self) -> Decimal:
        """The weight of all deductions, or of the whole day when it is lost."""
        if self.score.lost:
            return self.score.net
        return sum((line.amount for line in self.score.deductions), ZERO)


def scored(slip: WeighSlip | SlipData, table: Table) -> Scored | None:
    """The slip scored by the event's rules; None for a void, or when the rules cannot score it."""
    if slip.void:
        return None
    try:
        seen = rules_slip(slip, table)
        score = scoring.score(table.rules, seen)
    except Faults:
        return None
    lines = (
        *_weighed(table.rules, seen, score),
        *_made(table.rules, seen, score, _by(slip, table)),
        *_nothing(slip, table, seen, score),
    )
    return Scored(seen, score, lines, big_fish_in_words(table.rules, seen, score))


def big_fish_in_words(rules: Rulebook, slip: Slip, score: Score) -> str:
    """What the big fish counts, or why it does not; empty without one."""
    if slip.big_fish is None:
        return ""
    unit = rules.unit
    alive = slip.dead == 0 if slip.big_fish_alive is None else slip.big_fish_alive
    start = gettext("Big fish, alive, %(weight)s") if alive else gettext("Big fish, dead, %(weight)s")
    big_fish = start % {"weight": spoken(slip.big_fish, unit)}
    if score.big_fish is not None and score.big_fish != slip.big_fish:
        less = gettext("%(big_fish)s: counts %(weight)s, less what coming in late costs.")
        return less % {"big_fish": big_fish, "weight": spoken(score.big_fish, unit)}
    if score.big_fish is not None:
        said = gettext("%(big_fish)s: counts.")
    elif score.lost:
        said = gettext("%(big_fish)s: does not count, the day is lost.")
    elif not alive and not (rules.dead_are_weighed and rules.dead_fish_big_fish):
        said = gettext("%(big_fish)s: does not count, a dead fish cannot be the big fish.")
    else:
        said = gettext("%(big_fish)s: does not count, coming in late wears it down.")
    return said % {"big_fish": big_fish}


def _weighed(rules: Rulebook, slip: Slip, score: Score) -> list[ScoreLine]:
    unit = rules.unit
    if slip.fish == 0 or score.on_scale == 0:
        return [
            ScoreLine(
                gettext("No fish") if slip.fish == 0 else gettext("Nothing on the scale"), weight(score.net, unit)
            )
        ]
    tare = rules.bag_tare if slip.tare is None else slip.tare
    fish = score.on_scale
    if not tare:
        weighed = ngettext("Net weight, %(n)s fish", "Net weight, %(n)s fish", fish) % {"n": fish}
        return [ScoreLine(weighed, weight(score.net, unit))]
    showed = ngettext("Scale reading, %(n)s fish and bag", "Scale reading, %(n)s fish and bag", fish)
    return [
        ScoreLine(showed % {"n": fish}, weight(slip.gross, unit)),
        ScoreLine(gettext("Bag"), taken_off(tare, unit)),
    ]


def _made(rules: Rulebook, slip: Slip, score: Score, by: str) -> list[ScoreLine]:
    unit = rules.unit
    if score.lost:
        because = f": {slip.disqualified_reason}" if score.lost == "ruling" else by if score.lost == "late" else ""
        return [
            ScoreLine(
                _capital(words.lost_in_words(score.lost)) + because, taken_off(score.net, unit) or weight(ZERO, unit)
            )
        ]
    lines = [
        ScoreLine(
            _capital(words.explain(line, rules, score)) + (by if line.reason == "late" else ""),
            taken_off(line.amount, unit) or weight(ZERO, unit),
        )
        for line in score.deductions
    ]
    if score.bonus:
        lines.append(ScoreLine(gettext("Bonus for live fish"), weight(score.bonus, unit)))
    sum_of = score.net + score.bonus - sum((line.amount for line in score.deductions), ZERO)
    if sum_of != score.total:
        lines.append(ScoreLine(gettext("A day is never below 0"), weight(score.total - sum_of, unit)))
    return lines


def _nothing(slip: WeighSlip | SlipData, table: Table, seen: Slip, score: Score) -> list[ScoreLine]:
    """The line that says what cost nothing, so that a blank is not taken for forgotten."""
    if score.lost:
        return []
    taken = {line.reason for line in score.deductions}
    parts = []
    if seen.fish and not seen.dead and "dead_fish" not in taken:
        parts.append(gettext("no dead fish"))
    if seen.fish and not seen.short and "short_fish" not in taken:
        parts.append(gettext("no short fish"))
    if "late" not in taken:
        parts.append(on_time(slip, table))
    said = "; ".join(part for part in parts if part)
    return [ScoreLine(_capital(said), weight(ZERO, table.rules.unit), nothing=True)] if said else []


def _by(slip: WeighSlip | SlipData, table: Table) -> str:
    """Says that the lateness is the check-in table's and not the slip's own; else empty."""
    boat = value_of(slip, "boat")
    own = slip.checked_in is not None or slip.minutes_late is not None
    return "" if own or (boat, slip.day) not in table.arrivals else ", " + gettext("by the check-in table")


def on_time(slip: WeighSlip | SlipData, table: Table) -> str:
    """When the boat checked in and was due, in words; empty when the check-in is not recorded."""
    boat = value_of(slip, "boat")
    counted = arrival_counted(slip, table.arrivals.get((boat, slip.day)))
    by = _by(slip, table)
    if counted.checked_in is None:
        if not counted.minutes_late:
            return ""
        return gettext("%(minutes)s min late, within the grace") % {"minutes": counted.minutes_late} + by
    due = table.calendar.due(slip.day, table.boats.get(boat, ""))
    said = gettext("checked in %(time)s, due %(due)s")
    if by:
        said = gettext("checked in %(time)s, by the check-in table, due %(due)s")
    times = {"time": clock(counted.checked_in, table.calendar, slip.day), "due": clock(due, table.calendar, slip.day)}
    if not counted.excused_minutes or counted.checked_in <= due:
        return said % times
    excused = plain(Decimal(counted.excused_minutes))
    return gettext("%(said)s, %(minutes)s min excused") % {"said": said % times, "minutes": excused}


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
