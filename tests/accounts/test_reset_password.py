"""A new password from the server's machine: asked for twice, noted in the history without it."""

import getpass
from io import StringIO

import pytest
import world
from django.core.management import CommandError, call_command
from django.urls import reverse

from weighin.accounts.models import User
from weighin.audit.models import HistoryEntry

pytestmark = pytest.mark.django_db
NEW = "quill reservoir at dawn"


def typed(monkeypatch: pytest.MonkeyPatch, *answers: str) -> None:
    given = iter(answers)
    monkeypatch.setattr(getpass, "getpass", lambda prompt="": next(given))


def test_the_new_one_opens_and_other_devices_are_signed_out(monkeypatch: pytest.MonkeyPatch) -> None:
    person = User.objects.create_user("mara", password="a pass phrase")
    there = world.signed_in(person)
    typed(monkeypatch, NEW, NEW)
    out = StringIO()
    call_command("reset_password", "MARA", stdout=out)
    person.refresh_from_db()
    assert person.check_password(NEW) and NEW not in out.getvalue()
    assert there.get(reverse("accounts:password")).status_code == 302
    entry = HistoryEntry.objects.get(act="person.password")
    assert entry.actor == "command line" and NEW not in f"{entry.sentence}{entry.details}"


@pytest.mark.parametrize(
    ("name", "answers", "said"),
    [
        ("nobody", (), "Nobody signs in"),
        ("mara", (NEW, NEW + "x"), "differ"),
        ("mara", ("short", "short"), "8 characters"),
    ],
)
def test_what_will_not_do_changes_nothing(
    monkeypatch: pytest.MonkeyPatch, name: str, answers: tuple[str, ...], said: str
) -> None:
    person = User.objects.create_user("mara", password="a pass phrase")
    typed(monkeypatch, *answers)
    with pytest.raises(CommandError, match=said):
        call_command("reset_password", name)
    person.refresh_from_db()
    assert person.check_password("a pass phrase") and not HistoryEntry.objects.exists()
