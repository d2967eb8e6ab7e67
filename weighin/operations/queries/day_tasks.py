"""What the ramp, the roll, the line, the scales and the paper want of somebody while an event is going on."""

from django.urls import reverse
from django.utils.translation import gettext, ngettext

from weighin.accounts.domain.roles import Can
from weighin.checkin.pages.words import in_doubt_said
from weighin.checkin.queries.roll import in_doubt, still_out
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.line.queries import Line
from weighin.scales.queries import checks_of, due_today, scales_of
from weighin.slips.queries.pads import in_runs, missing_numbers
from weighin.slips.queries.scale_doubts import doubts_of
from weighin.slips.queries.slips import current_slips

NAMED = 5


def day_tasks(event: Event, cans: set[Can], line: Line) -> list[tuple[str, str]]:
    """A sentence and the address to act at, the most urgent first; nothing once the event is closed. ``line`` is the
    day's that is shown."""
    if event.closed_at is not None or Can.RECORD_SLIP not in cans:
        return []
    found = []
    out = sorted({boat.entry.boat for boat in still_out(event)})
    if out:
        named = in_runs(out) if len(out) <= NAMED else str(len(out))
        found.append(
            (
                ngettext(
                    "Boat still out: %(named)s. Who has seen it?",
                    "Boats still out: %(named)s. Who has seen them?",
                    len(out),
                )
                % {"named": named},
                _at(event, "checkin:roll"),
            )
        )
    for boat in in_doubt(event) if Can.CORRECT_SLIP in cans else ():
        where = reverse("checkin:roll_boat", args=[event.slug, boat.day, boat.entry.boat])
        found.append((f"{in_doubt_said(boat)} " + gettext("Which counts?"), where))
    if line.hold is not None:
        found.append((gettext("The line is on hold: a named person lets it go on."), _at(event, "line:line")))
    scales, checks = scales_of(event), checks_of(event)
    for scale in due_today(event, calendar_of(event), scales, checks):
        found.append(
            (
                gettext("Scale %(name)s has no test today: put a test weight on it.") % {"name": scale.name},
                _at(event, "slips:scales"),
            )
        )
    doubted = len(doubts_of(event, current_slips(event)).marks)
    if doubted and Can.MANAGE_EVENT in cans:
        found.append(
            (
                ngettext(
                    "%(doubted)s slip is in doubt: a scale failed its test.",
                    "%(doubted)s slips are in doubt: a scale failed its test.",
                    doubted,
                )
                % {"doubted": doubted},
                _at(event, "slips:scales"),
            )
        )
    missing = missing_numbers(event)
    if missing and Can.MANAGE_EVENT in cans:
        found.append(
            (gettext("Paper slips missing: %(in_runs)s.") % {"in_runs": in_runs(missing)}, _at(event, "slips:pads"))
        )
    return found


def _at(event: Event, name: str) -> str:
    return reverse(name, args=[event.slug])
