"""The command that gives an imported club its first member."""

import pytest
import world
from django.core.management import CommandError, call_command

from weighin.accounts.models import User
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Membership

pytestmark = pytest.mark.django_db


def test_an_imported_club_gets_its_director() -> None:
    club = world.plain().club
    User.objects.create_user("Dora", password="a pass phrase")
    call_command("add_member", club.slug, "dora")
    assert Membership.objects.get(club=club).role == "director"
    call_command("add_member", club.name, "dora", "club_reviewer")
    assert Membership.objects.get(club=club).role == "club_reviewer"
    assert HistoryEntry.objects.filter(act="member.added", club_id=club.pk).count() == 2


def test_unknown_clubs_and_people_are_named() -> None:
    club = world.plain().club
    with pytest.raises(CommandError, match=r"no club nowhere"):
        call_command("add_member", "nowhere", "dora")
    with pytest.raises(CommandError, match=r"Nobody signs in as dora"):
        call_command("add_member", club.slug, "dora")
