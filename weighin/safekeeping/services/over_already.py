"""What was over when a backup is restored stays so: sessions that ended, recovery codes and invitations that were used,
e-mail that was sent, and links of teams that were made anew."""

from collections.abc import Callable

from django.contrib.sessions.models import Session
from django.utils import timezone

from weighin.accounts.models import RecoveryCode
from weighin.clubs.models import Invitation
from weighin.letters.models import Letter
from weighin.signup.models import SignUp


def over_already() -> Callable[[], None]:
    """Remember it, before the restore; what is given ends it once more, inside ``writing``."""
    sessions = set(Session.objects.values_list("session_key", flat=True))
    used = set(RecoveryCode.objects.filter(used_at__isnull=False).values_list("digest", flat=True))
    closed = set(Invitation.objects.filter(closed_at__isnull=False).values_list("made_at", "made_by", "name"))
    sent = set(Letter.objects.exclude(sent_at=None, given_up_at=None).values_list("pk", flat=True))
    links = {pk: link for pk, *link in SignUp.objects.values_list("pk", "link_number", "token_digest")}

    def end_once_more() -> None:
        ended = set(Session.objects.values_list("session_key", flat=True)) - sessions
        Session.objects.filter(session_key__in=ended).delete()
        RecoveryCode.objects.filter(digest__in=used, used_at__isnull=True).update(used_at=timezone.now())
        again = Letter.objects.filter(pk__in=sent, sent_at=None, given_up_at=None)
        again.update(sent_at=timezone.now(), address="", subject="", body="")
        for sign_up in SignUp.objects.filter(pk__in=links):
            number, digest = links[sign_up.pk]
            if sign_up.link_number != number:
                SignUp.objects.filter(pk=sign_up.pk).update(link_number=number, token_digest=digest)
        for one in Invitation.objects.filter(closed_at__isnull=True):
            if (one.made_at, one.made_by, one.name) in closed:
                one.closed_at = timezone.now()
                one.save(update_fields=["closed_at"])

    return end_once_more
