"""What a planner's answer costs: a hot day, and the longest sentence the page allows within a tournament's day."""

import pytest
from django.test import Client

from bench.floor import FLOOR, best, floor
from bench.measured import Measured
from weighin.planning.forms.planner import PlannerForm

pytestmark = pytest.mark.bench

HOT = {"units": "us", "lake": "86", "air": "95", "have": "20"}
LONG = {**HOT, "aboard": "day", "hours": "12", "change": "2", "lid": "open", "fish": "30"}


@pytest.mark.parametrize("asked", [HOT, LONG], ids=["hot day", "twelve hours"])
def test_a_planners_answer_is_there_at_once(asked: dict[str, str], measured: Measured) -> None:
    client = Client()
    client.get("/planner/", asked)

    def worked_out() -> None:
        form = PlannerForm(asked)
        assert form.is_valid() and form.answer is not None
        assert form.answer.oxygen_freshly_caught and form.answer.carbon_freshly_caught and form.answer.stops

    least = floor()
    answer = best(worked_out)
    part = best(lambda: client.get("/planner/", asked, headers={"HX-Request": "true"}))
    page = best(lambda: client.get("/planner/", asked))
    name = f"Livewell plan, {'a day of 12 h' if asked is LONG else 'a hot day'}"
    measured(f"{name}: the answer", answer, "ms", least, FLOOR, at_most=8)
    measured(f"{name}: with charts and what-ifs", part, "ms", least, FLOOR, at_most=25)
    measured(f"{name}: the page", page, "ms", least, FLOOR, at_most=35)
