"""Erase what sign-ups hold of persons: with an angler who is erased, and what tells of somebody who asked."""

from collections.abc import Callable, Iterable

from django.utils.translation import gettext, ngettext

from weighin.audit.services import log_history
from weighin.events.models import Event
from weighin.events.services.revision import raise_revision
from weighin.roster.models import Angler
from weighin.signup.domain.fields import PERSONAL
from weighin.signup.models import SignUp
from weighin.signup.queries.sign_ups import texts_of_person


def erase_from_sign_ups(event: Event, anglers: Iterable[Angler], tells_of: Callable[[str], bool], by: str) -> int:
    """Blank the sign-ups of an event that hold, or whose entry held, one of the ``anglers``, and those that tell of the
    person; how many it were. One that waited for the desk is withdrawn. Call it inside ``writing``."""
    lines = {(angler.entry_id, angler.position) for angler in anglers}
    touched = 0
    for row in SignUp.objects.filter(event=event):
        gone = {f"guardian_{position}" for entry, position in lines if entry == row.entry_id}
        told = any(map(tells_of, texts_of_person(row)))
        names = PERSONAL if told else tuple(name for name in gone if getattr(row, name))
        if not names:
            continue
        for name in names:
            setattr(row, name, "")
        if told:
            row.name, row.reason, row.consent_words = "", "", ""
            if row.state == SignUp.State.ASKED:
                row.state = SignUp.State.WITHDRAWN
        row.save()
        touched += 1
    if touched:
        raise_revision(event)
        sentence = ngettext("%(n)s sign-up: names erased", "%(n)s sign-ups: names erased", touched) % {"n": touched}
        log_history(
            by,
            "names.erased",
            sentence,
            club_id=event.season.club_id,
            event_id=event.pk,
            subject=gettext("the sign-up"),
        )
    return touched
