"""Give figures out once: the first time they are worked out, ever after they are read."""

from collections.abc import Callable
from typing import Any

from weighin.audit.services import log_history, writing
from weighin.mortality.models import PublishedOnce


def once(key: str, make: Callable[[], Any], sentence: str, club_id: int | None = None) -> Any:
    """The plain JSON published under ``key``; ``make`` works it out when there is none yet. The history says so."""
    found = PublishedOnce.objects.filter(key=key).first()
    if found is None:
        with writing():
            found = PublishedOnce.objects.filter(key=key).first()
            if found is None:
                found = PublishedOnce.objects.create(key=key, content=make())
                log_history("site", "figures.fixed", sentence, club_id=club_id, subject=key)
    return found.content
