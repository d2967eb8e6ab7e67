"""What sign-ups hold of people is found, taken out as a file, and erased as anglers are."""

import json
from datetime import date

import pytest
from django.test import Client
from signup.form import YOUTH, event, send

from weighin.privacy.queries.decided import named_seasons
from weighin.privacy.queries.own import kept_about
from weighin.privacy.services.deciding import keep_names
from weighin.privacy.services.erasing import erase_name, erase_old_names
from weighin.roster.models import Angler, Entry
from weighin.rules.faults import Faults
from weighin.signup.models import SignUp
from weighin.signup.services.sign_ups import approve

pytestmark = pytest.mark.django_db


def everything() -> str:
    """All that the sign-ups say."""
    return str(list(SignUp.objects.values()))


def test_an_angler_who_waits_for_the_desk_is_found_and_erased() -> None:
    found = event()
    send(Client(), found, **YOUTH)
    said = json.dumps(kept_about(found.club, "Dee Birch"))
    assert "Dee Birch" in said
    erase_name(found.club, "dee  birch", "mara")
    assert "Dee" not in everything()
    assert SignUp.objects.get().state == "withdrawn"
    with pytest.raises(Faults):
        erase_name(found.club, "Dee Birch", "mara")


def test_with_an_angler_who_is_entered_the_guardian_goes() -> None:
    found = event()
    send(Client(), found, **YOUTH)
    approve(SignUp.objects.get(), "mara")
    assert "Bob Birch" in everything()
    erase_name(found.club, "Dee Birch", "mara")
    assert "Bob Birch" not in everything()
    assert Angler.objects.filter(name="Ann Alder").exists() and Entry.everyone.filter(name="Heron pair").exists()


def test_a_guardian_is_erased_by_name() -> None:
    found = event()
    send(Client(), found, **YOUTH)
    approve(SignUp.objects.get(), "mara")
    assert "Bob Birch" in json.dumps(kept_about(found.club, "Bob Birch"))
    erase_name(found.club, "Bob Birch", "mara")
    assert "Bob Birch" not in everything()


def test_of_old_seasons_nothing_is_kept() -> None:
    found = event()
    send(Client(), found, **YOUTH)
    found.event_days.update(date=date(2020, 6, 20))
    (season,) = named_seasons(found.club)
    assert season.sign_ups == 1
    found.club.seasons.create(name="Next", slug="next")
    other = event("Later", season="Later season")
    other.event_days.update(date=date(2021, 6, 20))
    keep_names(found.club, 1, "mara")
    erase_old_names(found.club, "mara")
    for text in ("Dee", "Ann Alder", "555-0161", "Bob", "Heron pair", "ann@lake.example"):
        assert text not in everything(), text
