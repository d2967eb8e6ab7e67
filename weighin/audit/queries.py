"""The history, newest first."""

from django.db.models import QuerySet

from weighin.audit.models import HistoryEntry


def event_history(event_id: int) -> QuerySet[HistoryEntry]:
    """What was done to an event."""
    return HistoryEntry.objects.filter(event_id=event_id).order_by("-id")


def club_history(club_id: int) -> QuerySet[HistoryEntry]:
    """What was done to a club and its events."""
    return HistoryEntry.objects.filter(club_id=club_id).order_by("-id")
