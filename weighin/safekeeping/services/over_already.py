"""What was over when a backup is restored stays so: sessions that ended, recovery codes and invitations that were used."""

from collections.abc import Callable

from django.contrib.sessions.models import Session
from django.utils import timezone

from weighin.accounts.models import RecoveryCode
from weighin.clubs.models import Invitation


def over_already() -> Callable[[], None]:
    """Remember it, before the restore; what is given ends it once more, inside ``writing``."""
    sessions = set(Session.objects.values_list("session_key", flat=True))
    used = set(RecoveryCode.objects.filter(used_at__isnull=False).values_list("digest", flat=True))
    closed = set(Invitation.objects.filter(closed_at__isnull=False).values_list("made_at", "made_by", "name"))

    def end_once_more() -> None:
        ended = set(Session.objects.values_list("session_key", flat=True)) - sessions
        Session.objects.filter(session_key__in=ended).delete()
        RecoveryCode.objects.filter(digest__in=used, used_at__isnull=True).update(used_at=timezone.now())
        for one in Invitation.objects.filter(closed_at__isnull=True):
            if (one.made_at, one.made_by, one.name) in closed:
                one.closed_at = timezone.now()
                one.save(update_fields=["closed_at"])

    return end_once_more
