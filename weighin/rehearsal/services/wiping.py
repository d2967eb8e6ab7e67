"""Wipe a rehearsal: the copy of the event and every row that hangs on it, in one act."""

from typing import Any

from django.db import connection
from django.utils.translation import gettext

from weighin.audit.database.triggers import removed_whole
from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.rehearsal.domain.faults import NO_REHEARSAL
from weighin.roster.models import Entry, Team
from weighin.rules.faults import Faults


def wipe_rehearsal(event: Event, by: str) -> None:
    """Take the event's rehearsal away, whatever was written in it, also while boats still come in.

    The event stays as it is. Raises Faults when it has no rehearsal.
    """
    with writing():
        copy = Event.everyone.select_for_update(of=("self",)).filter(rehearsal_of=event).first()
        if copy is None:
            raise Faults([NO_REHEARSAL.at("", event=event.name)])
        teams = list(Entry.everyone.filter(event=copy).values_list("team_id", flat=True))
        hanging = next(hanging for owner, hanging in removed_whole() if owner is Event)
        for model, way in hanging:
            # Straight to the table: the triggers let it while the copy is there, and every other way refuses
            rows: Any = model._base_manager.filter(**{"__".join(way): copy.pk})
            rows._raw_delete(connection.alias)
        # Invented for the rehearsal: no event has them
        Team.objects.filter(pk__in=teams, entries__isnull=True).delete()
        copies: Any = Event.everyone.filter(pk=copy.pk)
        copies._raw_delete(connection.alias)
        log_history(
            by,
            "rehearsal.wiped",
            gettext("Rehearsal of %(event)s wiped") % {"event": event.name},
            club_id=event.season.club_id,
            subject=event.slug,
        )
