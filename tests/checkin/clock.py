"""The site's clock, set by a test."""

from collections.abc import Callable
from datetime import datetime

import pytest
from django.utils import timezone

Clock = Callable[[str], datetime]


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Clock:
    """Set the site's clock: ``clock("2026-06-20T14:58:10-05:00")``; it stands still."""

    def set_to(text: str) -> datetime:
        moment = datetime.fromisoformat(text)
        monkeypatch.setattr(timezone, "now", lambda: moment)
        return moment

    return set_to
