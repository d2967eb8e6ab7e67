"""The lines that made a score, as in a ledger: what was weighed, every deduction, the bonus, the total."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from django.db.models import TextChoices
from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.rules.faults import Together
from weighin.rules.ranking import Ranked
from weighin.rules.results import DayResult
from weighin.rules.scoring import ZERO
from weighin.rules.weights import spoken
from weighin.rules.words.scores import explain, lost_in_words, status_in_words, tie_in_words
from weighin.slips.models import WeighSlip
from weighin.standings.queries.standings import Standings
from weighin.ui import figures


class Prizes(TextChoices):
    """Whether the prizes shown are those of an official result; the label is the head over them."""

    OFFICIAL = "official", gettext_lazy("Prize")
    NOW = "now", gettext_lazy("Prize if it ended now")


@dataclass(frozen=True)
class LedgerLine:
    """One line: its words, the weight beside them (None for none), and whether it is a day's or the final sum."""

    words: str
    amount: Decimal | None = None
    adds_up: bool = False
    slip: int | None = None

    @property
    def minus(self) -> Decimal | None:
        """The amount with its sign turned, for a line that is written as taken off."""
        return None if self.amount is None else -self.amount


def ledger_lines(standings: Standings, boat: int) -> list[LedgerLine]:
    """Every line of a boat's total, day by day; the amounts above a sum add up to it."""
    ranked = next(row for row in standings.outcome.ranked if row.result.team.boat == boat)
    result = ranked.result
    lines: list[LedgerLine] = []
    several = len(result.days) > 1
    for day in result.days:
        slip = standings.slips[boat, day.day][0]
        lines.extend(_day_lines(standings, day, slip, several))
    for (of_boat, number), slips in standings.slips.items():
        if of_boat == boat and len(slips) > 1:
            numbers = Together(tuple(slip.number for slip in slips))
            lines.append(
                LedgerLine(
                    gettext("Day %(number)s: slips %(numbers)s wait for the director; neither counts yet")
                    % {"number": number, "numbers": numbers}
                )
            )
    if not result.days:
        lines.append(LedgerLine(status_in_words(result.status).capitalize()))
    if several:
        lines.append(LedgerLine(gettext("Total"), result.total, adds_up=True))
    return lines


def levels(everyone: Sequence[Ranked]) -> dict[int, str]:
    """Why teams with the same total stand where they stand, in words by boat; teams with a total of their own are left out."""
    groups: dict[tuple[bool | None, Decimal], list[Ranked]] = {}
    for row in everyone:
        if row.place is not None:
            groups.setdefault((row.made_cut, row.result.total), []).append(row)
    return {
        row.result.team.boat: _level_with(row, [peer for peer in group if peer is not row])
        for group in groups.values()
        if len(group) > 1
        for row in group
    }


def _level_with(row: Ranked, peers: Sequence[Ranked]) -> str:
    place = row.place or 0
    shared = [peer for peer in peers if peer.place == place]
    if shared:
        last = place + len(shared)
        return gettext("Tied with %(boats)s on every tie-breaker: they share places %(place)s to %(last)s.") % {
            "boats": _boats(shared),
            "place": place,
            "last": last,
        }
    behind = [peer for peer in peers if (peer.place or 0) > place]
    if behind and len(behind) < len(peers):
        return gettext("Level with %(boats)s; tie-breakers put it between them.") % {"boats": _boats(peers)}
    if not row.decided_by:
        return gettext("Level with %(boats)s.") % {"boats": _boats(peers)}
    how = tie_in_words(row.decided_by, bool(behind))
    return gettext("Level with %(boats)s, %(how)s.") % {"boats": _boats(peers), "how": how}


def _day_lines(standings: Standings, day: DayResult, slip: WeighSlip, several: bool) -> list[LedgerLine]:
    rules, score = standings.rules, day.score
    if day.slip.fish == 0:
        weighed = gettext("no fish")
    elif score.on_scale == 0:
        weighed = gettext("nothing on the scale")
    else:
        weighed = ngettext("weighed, %(n)s fish", "weighed, %(n)s fish", score.on_scale) % {"n": score.on_scale}
    if several:
        weighed = gettext("Day %(day)s: %(weighed)s") % {"day": day.day, "weighed": weighed}
    lines = [LedgerLine(_capital(weighed), score.net, slip=slip.number)]
    if score.lost:
        lines.append(LedgerLine(_capital(lost_in_words(score.lost)) + _ruling(slip), ZERO - score.net))
    lines.extend(LedgerLine(_capital(explain(line, rules, score)), ZERO - line.amount) for line in score.deductions)
    if score.bonus:
        lines.append(LedgerLine(gettext("Bonus for live fish"), score.bonus))
    found = sum((line.amount or ZERO for line in lines), ZERO)
    if found != score.total:
        lines.append(LedgerLine(gettext("A day is never less than 0"), score.total - found))
    lines.append(
        LedgerLine(
            gettext("Total of day %(day)s") % {"day": day.day} if several else gettext("Total"),
            score.total,
            adds_up=True,
        )
    )
    return lines


def team_notes(standings: Standings, boat: int, prizes: Prizes | None, officials: bool = True) -> list[str]:
    """What else belongs to a team's row, a sentence each: its slips, its big fish, its money.

    Without ``prizes`` no prize is told, and without ``officials``, for the public, nobody who wrote a slip.
    """
    ranked = next(row for row in standings.outcome.ranked if row.result.team.boat == boat)
    purse, unit = standings.outcome.purse, standings.event.weight_unit
    notes = slip_notes(standings, boat, officials)
    if ranked.result.big_fish is not None:
        notes.append(gettext("Big fish %(big_fish)s.") % {"big_fish": spoken(ranked.result.big_fish, unit)})
    if prizes and boat in purse.prizes:
        notes.append(f"{prizes.label} {figures.money(purse.prizes[boat])}.")
    if prizes and boat in purse.pot_prizes:
        pot = (
            gettext("From the big fish pot %(amount)s.")
            if prizes == Prizes.OFFICIAL
            else gettext("From the big fish pot if it ended now %(amount)s.")
        )
        notes.append(pot % {"amount": figures.money(purse.pot_prizes[boat])})
    if ranked.place is not None and not ranked.result.team.paid and purse.purse:
        notes.append(gettext("Entry not paid: it keeps its place and gets no prize."))
    return notes


def slip_notes(standings: Standings, boat: int, officials: bool = True) -> list[str]:
    """Where a boat's slips come from, a sentence each, by day."""
    days = sorted(day for of_boat, day in standings.slips if of_boat == boat)
    return [slip_note(slip, standings, officials) for day in days for slip in standings.slips[boat, day]]


def slip_note(slip: WeighSlip, standings: Standings, officials: bool = True) -> str:
    """Where the slip comes from, in one sentence: its number, times, official, and when the server had it."""
    zone = standings.table.calendar.zone
    parts = [gettext("Slip %(number)s") % {"number": slip.number}]
    if slip.weighed:
        parts.append(gettext("weighed %(clock)s") % {"clock": _clock(slip.weighed.astimezone(zone))})
    if slip.official and officials:
        parts.append(gettext("by %(official)s") % {"official": slip.official})
    if slip.checked_in:
        due = standings.table.calendar.due(slip.day, standings.table.boats.get(slip.entry.boat, ""))
        parts.append(
            gettext("checked in %(clock)s, due %(due)s")
            % {"clock": _clock(slip.checked_in.astimezone(zone)), "due": _clock(due.astimezone(zone))}
        )
    elif slip.minutes_late:
        parts.append(gettext("%(minutes_late)s minutes late") % {"minutes_late": slip.minutes_late})
    parts.append(gettext("saved %(clock)s") % {"clock": _clock(slip.received_at.astimezone(zone))})
    return ", ".join(parts) + "."


def _clock(moment: datetime) -> str:
    return figures.exact_clock(moment) if moment.second else figures.clock(moment)


def _ruling(slip: WeighSlip) -> str:
    return f": {slip.disqualified_reason}" if slip.disqualified_reason else ""


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _boats(rows: Sequence[Ranked]) -> str:
    numbers = tuple(row.result.team.boat for row in rows)
    return str(ngettext("boat %(boats)s", "boats %(boats)s", len(numbers)) % {"boats": Together(numbers)})
