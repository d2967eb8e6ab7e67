"""Take letters out of the queue that are not to be sent any more."""

from collections.abc import Iterable

from django.db.models import Q
from django.utils import timezone

from weighin.audit.services import writing
from weighin.letters.models import Letter
from weighin.letters.queries import waiting

WITHDRAWN = "withdrawn"


def withdraw(letters: Iterable[Letter]) -> int:
    """Give up those that still wait and that no process has in hand; how many. Nothing of a person is left of them."""
    with writing():
        now = timezone.now()
        free = waiting().filter(Q(held_until=None) | Q(held_until__lte=now), pk__in=[letter.pk for letter in letters])
        return free.update(given_up_at=now, wrong=WITHDRAWN, address="", subject="", body="")
