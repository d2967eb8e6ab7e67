"""The demo's rows of the shore: brought in once, agreeing with the slips, and in no rate."""

import json
from pathlib import Path

import pytest
from django.core.management import call_command

from weighin.checkin.models import CheckIn
from weighin.checkin.queries.roll import roll_of, still_out
from weighin.events.models import Event
from weighin.holding.models import HoldingPen, PenCheck, StudyPen
from weighin.holding.queries import study_of
from weighin.line.models import LineWord
from weighin.mortality.queries.event import event_mortality
from weighin.scales.models import Scale, ScaleCheck
from weighin.slips.models import PaperPad
from weighin.tanks.models import FloaterWalk, KeptFish, Release, Treatment
from weighin.tanks.queries.releases import releases_of

pytestmark = pytest.mark.django_db
ROWS = json.loads((Path(__file__).resolve().parents[2] / "demo" / "shore.json").read_text(encoding="utf-8"))
MODELS = {
    "treatment": Treatment,
    "release": Release,
    "floater_walk": FloaterWalk,
    "kept_fish": KeptFish,
    "study_pen": StudyPen,
    "pen_check": PenCheck,
    "check_in": CheckIn,
    "line_word": LineWord,
    "scale": Scale,
    "scale_check": ScaleCheck,
    "pad": PaperPad,
}


def test_every_row_is_brought_in_once_and_agrees_with_the_slips() -> None:
    for _ in range(2):
        call_command("load_demo", verbosity=0)
    for kind, model in MODELS.items():
        assert model._default_manager.count() == sum(row["row"] == kind for row in ROWS) > 0, kind
    summer = releases_of(Event.objects.get(name="High Summer"))
    assert summer.alive == summer.slips.for_the_lake and summer.dead == summer.slips.dead_at_release
    assert summer.gone_dead == summer.slips.dead + summer.slips.dead_at_release
    spawn = releases_of(Event.objects.get(name="Bank Spawn Open"))
    assert spawn.alive == spawn.slips.for_the_lake and spawn.kept_alive == spawn.slips.kept
    # Fifty-nine fish of Turnover went into pens instead
    turnover = Event.objects.get(name="Turnover")
    held = sum(pen.held for pen in HoldingPen.objects.filter(event=turnover, kind="tournament"))
    assert releases_of(turnover).alive + held == releases_of(turnover).slips.for_the_lake
    # A study under way waits for somebody to end its pens, and is in no figure until then
    fall = Event.objects.get(name="Leaf Fall Classic")
    # The roll of its day is complete, and says of every boat what its slip says
    assert not still_out(fall) and not any(boat.slip_differs for boat in roll_of(fall, 1).boats)
    assert all(pen.may_end for pen in study_of(fall).under_way) and event_mortality(fall).delayed is None
