"""The history, newest first, and as the chain that it is."""

from collections.abc import Iterable

from django.db.models import QuerySet

from weighin.audit.domain.lines import Chain
from weighin.audit.models import HistoryEntry, KeptAside


def event_history(event_id: int) -> QuerySet[HistoryEntry]:
    """What was done to an event."""
    return HistoryEntry.objects.filter(event_id=event_id).order_by("-id").defer("bound")


def club_history(club_id: int) -> QuerySet[HistoryEntry]:
    """What was done to a club and its events."""
    return HistoryEntry.objects.filter(club_id=club_id).order_by("-id").defer("bound")


def has_acted(name: str) -> bool:
    """Whether the history knows somebody of this user name, whatever its case."""
    return HistoryEntry.objects.filter(actor__iexact=name).exists()


def words_aside(entries: Iterable[HistoryEntry]) -> dict[int, dict[str, list[str | None]]]:
    """What is kept aside of each entry, by its primary key and by name; None in the place of words that were erased."""
    found = {entry.pk: entry.details.get("aside", {}) for entry in entries if isinstance(entry.details, dict)}
    marks = [mark for aside in found.values() for named in aside.values() for mark in named]
    words = dict(KeptAside.objects.filter(mark__in=marks).values_list("mark", "words")) if marks else {}
    return {
        pk: {name: [words.get(mark) for mark in named] for name, named in aside.items()}
        for pk, aside in found.items()
        if aside
    }


def chained_lines(club_id: int | None, event_id: int | None) -> list[HistoryEntry]:
    """Every line of an event's history, else of a club's own, else of the site's, in the order of the chain.

    Lines that are older than the chain come first.
    """
    chain, _ = Chain.of(club_id, event_id)
    key = {Chain.EVENT: {"event_id": event_id}, Chain.CLUB: {"event_id__isnull": True, "club_id": club_id}}
    found = HistoryEntry.objects.filter(**key.get(chain, {"event_id__isnull": True, "club_id__isnull": True}))
    return sorted(found, key=lambda line: (line.position or 0, line.pk))
