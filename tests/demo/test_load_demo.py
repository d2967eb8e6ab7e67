"""``load_demo``: brings everything in once, publishes all but the event that waits for its director."""

import pytest
from django.core.management import call_command

from weighin.accounts.models import User
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.standings.models import OfficialResult

pytestmark = pytest.mark.django_db


def test_loading_twice_is_loading_once() -> None:
    call_command("load_demo", verbosity=0)
    found = Event.objects.count(), WeighSlip.objects.count(), User.objects.count(), OfficialResult.objects.count()
    assert found[0] == 10 and found[2] == 6
    assert list(Club.objects.filter(is_open=True).values_list("name", flat=True)) == ["Dunnock Valley Crappie Club"]
    call_command("load_demo", verbosity=0)
    assert (
        Event.objects.count(),
        WeighSlip.objects.count(),
        User.objects.count(),
        OfficialResult.objects.count(),
    ) == found
    published = set(OfficialResult.objects.values_list("event__name", flat=True))
    waiting = set(Event.objects.exclude(name__in=published).values_list("name", flat=True))
    assert waiting == {"Leaf Fall Classic"}
