"""Publish: freeze official results, and open or close an event's public pages."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django.db.models import F, Max
from django.utils import timezone
from django.utils.translation import gettext

from weighin.audit.services import log_history, writing
from weighin.checkin.pages.words import refusal, unheard_said
from weighin.checkin.queries.roll import still_out, unheard
from weighin.events.domain.faults import REHEARSAL_STAYS_PRIVATE
from weighin.events.models import Event
from weighin.rules.faults import Fault, Faults
from weighin.slips.queries.ledger import slips_seal
from weighin.slips.queries.slips import ledger_head
from weighin.standings.domain.faults import (
    DOUBLED_DAY,
    NEW_VERSION_WITHOUT_REASON,
    NOTHING_CHANGED,
    NOTHING_TO_PUBLISH,
    OFFICIAL_ALREADY,
    POSTED_ALREADY,
    REOPENED_WITHOUT_REASON,
)
from weighin.standings.models import Holdback, OfficialResult, Posting
from weighin.standings.queries.days import days_of, stage_to_keep
from weighin.standings.queries.document import event_part, nothing_new, result_part, stands
from weighin.standings.queries.embargo import ends_at, latest_embargo
from weighin.standings.queries.protests import latest_posting, minutes_of
from weighin.standings.queries.seals import result_seals
from weighin.standings.queries.standings import Standings, standings_of
from weighin.stations.services.stations import withdraw_all
from weighin.ui import figures


def publish_result(
    event: Event,
    by: str,
    reason: str = "",
    overruled: Sequence[Mapping[str, Any]] = (),
    side_pots: Mapping[str, Mapping[str, str]] | None = None,
) -> OfficialResult:
    """Freeze the standings as the next official version and open the public pages.

    ``overruled`` is kept with the version: open questions and why they may stand. Whoever lets a person publish asks
    for them first (``operations.publishing``). ``side_pots`` maps each pot to what boats won of it.

    Raises Faults while a team is in question or a boat is out, when nothing is weighed, when nothing changed since
    the last version, and when a second or later version gives no reason.
    """
    with writing():
        locked = _held(event)
        standings = standings_of(locked)
        length, head = ledger_head(locked)
        last = OfficialResult.objects.filter(event=locked).first()
        _refuse(standings.waiting, length)
        _refuse_out(locked)
        stage = stage_to_keep(days_of(standings), timezone.now())
        if last is not None and nothing_new(last, standings, (length, head), side_pots, stage):
            raise Faults([NOTHING_CHANGED.at("", version=last.version)])
        if last is not None and not reason.strip():
            raise Faults([NEW_VERSION_WITHOUT_REASON.at("reason", version=last.version)])
        version = (OfficialResult.objects.filter(event=locked).aggregate(most=Max("version"))["most"] or 0) + 1
        document = _document(locked, standings, (length, head))
        result = OfficialResult.objects.create(
            event=locked,
            version=version,
            published_by=by,
            reason=reason.strip(),
            ledger_length=length,
            ledger_head=head,
            document=document,
            stage=stage,
            overruled=[dict(row) for row in overruled],
            side_pots=side_pots,
        )
        _open_pages(locked)
        _lift(locked, by)
        log_history(
            by,
            "result.published",
            "".join(
                (
                    gettext("Official results, version %(version)s") % {"version": version},
                    f", {stage}" if stage else "",
                    f": {reason.strip()}" if reason.strip() else "",
                    overruled_said(overruled),
                )
            ),
            club_id=locked.season.club_id,
            event_id=locked.pk,
            subject=gettext("result %(version)s") % {"version": version},
            details={"ledger_length": length, "ledger_head": head, "overruled": [dict(row) for row in overruled]},
            bound={**result_seals(locked.pk, version), **slips_seal(locked)},
        )
    return result


def post_result(event: Event, by: str) -> Posting:
    """Post the provisional result: the pages open, places are held back no more, and the time for protests runs.

    What was posted is kept with it, so that a page can say what changed since. Raises Faults when nothing is weighed,
    when a version is official already, and when nothing changed since the last posting.
    """
    with writing():
        locked = _held(event)
        ledger = length, head = ledger_head(locked)
        official = OfficialResult.objects.filter(event=locked).first()
        if official is not None:
            raise Faults([OFFICIAL_ALREADY.at("", version=official.version)])
        _refuse([], length)
        standings = standings_of(locked)
        last = latest_posting(locked)
        if last is not None and locked.is_public and stands(last, standings, ledger):
            raise Faults([POSTED_ALREADY.at("")])
        posting = Posting.objects.create(
            event=locked,
            posted_by=by,
            minutes=minutes_of(locked),
            ledger_length=length,
            ledger_head=head,
            document=_document(locked, standings, ledger),
        )
        _open_pages(locked)
        _lift(locked, by)
        log_history(
            by,
            "result.posted",
            gettext("Provisional result posted; protests are taken for %(minutes)s minutes")
            % {"minutes": posting.minutes},
            club_id=locked.season.club_id,
            event_id=locked.pk,
            subject=gettext("provisional result"),
            details={"ledger_length": length, "ledger_head": head, "minutes": posting.minutes},
        )
    return posting


def start_embargo(event: Event, since: datetime, by: str) -> Holdback:
    """Show the crowd the places as they are (were) at ``since``, until that is lifted or a result is published."""
    with writing():
        Event.everyone.select_for_update(of=("self",)).get(pk=event.pk)
        ends = ends_at(event) if since <= timezone.now() else None
        said = Holdback.objects.create(event=event, since=since, ends=ends, by=by)
        Event.everyone.filter(pk=event.pk).update(revision=F("revision") + 1)
        at = since.astimezone(ZoneInfo(event.time_zone))
        _log_embargo(
            event,
            by,
            "standings.held_back",
            gettext("New weights not shown to the public after %(at)s") % {"at": figures.clock(at)},
        )
    return said


def lift_embargo(event: Event, by: str) -> None:
    """Show the crowd everything again; nothing happens where nothing is held back."""
    with writing():
        Event.everyone.select_for_update(of=("self",)).get(pk=event.pk)
        if _lift(event, by):
            Event.everyone.filter(pk=event.pk).update(revision=F("revision") + 1)


def _lift(event: Event, by: str) -> bool:
    if latest_embargo(event) is None:
        return False
    Holdback.objects.create(event=event, by=by)
    _log_embargo(event, by, "standings.shown", gettext("All weights shown to the public again"))
    return True


def _log_embargo(event: Event, by: str, act: str, sentence: str) -> None:
    log_history(by, act, sentence, club_id=event.season.club_id, event_id=event.pk)


def set_public(event: Event, public: bool, by: str) -> None:
    """Open the event's provisional pages to everyone, or take them back. Raises Faults for a rehearsal."""
    if public and event.rehearsal_of_id is not None:
        raise Faults([REHEARSAL_STAYS_PRIVATE.at("", event=event.name)])
    with writing():
        Event.everyone.filter(pk=event.pk).update(is_public=public, revision=F("revision") + 1)
        sentence = gettext("Pages published") if public else gettext("Pages unpublished")
        log_history(
            by,
            "event.public" if public else "event.private",
            sentence,
            club_id=event.season.club_id,
            event_id=event.pk,
        )


def overruled_said(overruled: Sequence[Mapping[str, Any]]) -> str:
    """Open questions that were overruled, with their reasons, as a history's sentence ends; empty where there are none."""
    return "".join(f"; {row['question'].rstrip('.')}: {row['reason']}" for row in overruled)


def set_closed(
    event: Event,
    closed: bool,
    by: str,
    reason: str = "",
    accounted: bool = False,
    overruled: Sequence[Mapping[str, Any]] = (),
) -> None:
    """Close the event so that no slip is written any more, or open it again with a reason.

    ``overruled`` goes into the history: open questions and why they may stand.

    Raises Faults, also while a boat is out or unaccounted for by the roll; and, until the director says that every boat
    is ``accounted`` for, when nobody says that boats of today came back (``unheard``).
    """
    if not closed and not reason.strip():
        raise Faults([REOPENED_WITHOUT_REASON.at("reopen_reason")])
    with writing():
        if closed:
            # Held, so that no word of a boat comes in between
            locked = (
                Event.everyone.select_for_update(of=("self",)).select_related("season", "rule_sheet").get(pk=event.pk)
            )
            _refuse(standings_of(locked).waiting, None)
            _refuse_out(locked)
            silent = [] if accounted else unheard(locked)
            if silent:
                raise Faults([Fault("accounted", unheard_said(silent))])
        moment = timezone.now() if closed else None
        Event.everyone.filter(pk=event.pk).update(closed_at=moment, revision=F("revision") + 1)
        if closed:
            withdraw_all(event, by)
        if not closed:
            sentence = gettext("Event reopened: %(reason)s") % {"reason": reason.strip()}
        elif accounted:
            sentence = gettext("Event closed: every boat is accounted for") + overruled_said(overruled)
        else:
            sentence = gettext("Event closed") + overruled_said(overruled)
        log_history(
            by,
            "event.closed" if closed else "event.reopened",
            sentence,
            club_id=event.season.club_id,
            event_id=event.pk,
            details={"overruled": [dict(row) for row in overruled]} if overruled else None,
            bound=slips_seal(event) if closed else None,
        )


def _open_pages(event: Event) -> None:
    """The result of a rehearsal stands before its members alone."""
    public = event.rehearsal_of_id is None
    Event.everyone.filter(pk=event.pk).update(is_public=public, revision=F("revision") + 1)


def _held(event: Event) -> Event:
    return (
        Event.everyone.select_for_update(of=("self",))
        .select_related("season__club", "water", "rule_sheet")
        .get(pk=event.pk)
    )


def _document(event: Event, standings: Standings, ledger: tuple[int, str]) -> dict[str, Any]:
    """What a version, or a posting, freezes."""
    length, head = ledger
    return {
        "event": event_part(event, length > 0),
        **result_part(standings),
        "ledger": {"length": length, "head": head},
    }


def _refuse(waiting: list[Any], length: int | None) -> None:
    if waiting:
        boats = ", ".join(sorted({str(slips[0].entry.boat) for slips in waiting}, key=int))
        raise Faults([DOUBLED_DAY.at("", boats=boats)])
    if length == 0:
        raise Faults([NOTHING_TO_PUBLISH.at("")])


def _refuse_out(event: Event) -> None:
    """A boat that nobody has accounted for and that was not weighed either keeps the event open."""
    said = refusal([boat for boat in still_out(event) if boat.where != "weighed"])
    if said:
        raise Faults([Fault("", said)])
