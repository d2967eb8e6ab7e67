"""Write a letter into the queue, with the write that it tells of: what is undone is never told."""

import threading
from datetime import timedelta

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from weighin.letters.models import Letter
from weighin.letters.queries import mail_is_set, mark_of_address, waiting

# How many may wait for one address: whoever has others write to somebody gets no further
MOST_WAITING = 3
# Set after each commit that queued one, so that this process's sender looks at once
NEWS = threading.Event()


def queue_letter(
    key: str,
    address: str,
    subject: str,
    body: str,
    *,
    club_id: int | None = None,
    event_id: int | None = None,
    apart: timedelta = timedelta(0),
) -> Letter | None:
    """Queue an e-mail; call it inside ``writing``. ``key`` says what it tells of: the same again queues nothing more.

    Letters with ``apart`` go to one address that far from each other, however many are asked for. None where the site
    sends no mail, there is no address, or too many wait for it.
    """
    to = address.strip()
    if not mail_is_set() or not to:
        return None
    known = Letter.objects.filter(key=key).first()
    if known is not None:
        return known
    now, mark = timezone.now(), mark_of_address(to)
    due_at = now
    if apart:
        if waiting().filter(address_mark=mark).count() >= MOST_WAITING:
            return None
        last = Letter.objects.filter(address_mark=mark, given_up_at=None).aggregate(last=Max("due_at"))["last"]
        due_at = max(now, last + apart) if last else now
    letter = Letter.objects.create(
        key=key,
        address=to[:254],
        address_mark=mark,
        subject=" ".join(subject.split())[:200],
        body=body,
        due_at=due_at,
        apart_seconds=int(apart.total_seconds()),
        club_id=club_id,
        event_id=event_id,
    )
    transaction.on_commit(NEWS.set)
    return letter
