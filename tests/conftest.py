"""What every test shares."""

from collections.abc import Iterator
from typing import Any

import pytest
from django.core.cache import cache
from django.db import connections
from django.test import TransactionTestCase
from hypothesis import HealthCheck, settings

pytest_plugins = ["chromium"]

# A busy machine is no fault of what is tried
settings.register_profile("any machine", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("any machine")


def _flush_without_triggers(self: Any) -> None:
    """Empty the database after a test with real transactions: the triggers refuse that, so they go first.

    Flushing sends post_migrate, which makes them again.
    """
    from weighin.audit.database.triggers import append_only_tables, remove

    for alias in self._databases_names(include_mirrors=False):
        for table in append_only_tables():
            remove(connections[alias], table)
    _fixture_teardown(self)


_fixture_teardown = TransactionTestCase._fixture_teardown
TransactionTestCase._fixture_teardown = _flush_without_triggers  # type: ignore[method-assign]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Every test that asks for the database is marked, so that it runs again on PostgreSQL."""
    for item in items:
        asks = set(getattr(item, "fixturenames", ())) & {"db", "transactional_db", "django_db_reset_sequences"}
        if asks or item.get_closest_marker("django_db"):
            item.add_marker(pytest.mark.database)


@pytest.fixture
def event(db: None) -> Any:
    """Four boats whose scales are open; a file that wants another event has its own fixture."""
    import world

    return world.event()


@pytest.fixture
def still_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """The site's clock stands: no minute begins between two pages that are held against each other."""
    from django.utils import timezone

    now = timezone.now()
    monkeypatch.setattr(timezone, "now", lambda: now)


@pytest.fixture(autouse=True)
def _empty_cache() -> None:
    from weighin.roster.services import event_scope
    from weighin.ui.kept import KEEPER
    from weighin.ui.outages import forget_told

    cache.clear()
    KEEPER.clear()
    forget_told()
    event_scope.forget()


@pytest.fixture(autouse=True, scope="session")
def _plain_settings() -> Iterator[None]:
    """Argon2 is slow on purpose, counts need no database here, and what a server collected earlier must not lend static files its names."""
    from django.conf import settings
    from django.test.utils import override_settings

    in_process = {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"}
    plain = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
    with override_settings(
        PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"],
        CACHES={"default": in_process},
        STORAGES={**settings.STORAGES, "staticfiles": plain},
    ):
        yield
