"""The standings drawn: the lead over the day, and how the boats' weights lie apart."""

from decimal import Decimal

import pytest
import world
from django.test import Client
from django.urls import reverse

from weighin.events.models import Event
from weighin.standings.pages.pictures import bags_of, lead_of
from weighin.standings.queries.standings import standings_of
from weighin.ui.charts.drawing import Polyline

pytestmark = pytest.mark.django_db

WEIGHED = (("14:05", "6.00"), ("14:20", "9.00"), ("14:40", "8.00"), ("15:00", "9.50"))


def event_of(*boats: tuple[str, str], **keys: str) -> Event:
    slips = [
        world.slip(boat=str(boat), fish="5", alive="5", dead="0", weighed=at, gross=gross, largest_weights="")
        for boat, (at, gross) in enumerate(boats, 1)
    ]
    return world.event(keys.pop("name", "Drawn"), world.pairs(5), slips, **keys)


def test_the_lead_is_said_by_team_time_and_changes() -> None:
    lead = lead_of(standings_of(event_of(*WEIGHED)))
    assert lead is not None
    assert lead.said == "Highest total: Pair 4, 9.50 lb, weighed at 3:00 PM. The lead changed 2 times."
    assert lead.changes == [("2:05 PM", "Pair 1", "6.00"), ("2:20 PM", "Pair 2", "9.00"), ("3:00 PM", "Pair 4", "9.50")]
    assert lead.drawings.phone.width < lead.drawings.half.width < lead.drawings.whole.width


def test_a_lead_that_never_changed_has_no_count() -> None:
    lead = lead_of(standings_of(event_of(("14:05", "9.60"), *WEIGHED[1:])))
    assert lead is not None and lead.said == "Highest total: Pair 1, 9.60 lb, weighed at 2:05 PM."


@pytest.mark.parametrize("boats", [(), WEIGHED[:2], (("", "6.00"), *WEIGHED[1:]), (("14:05", "5.00"),) * 3])
def test_nothing_is_drawn_of_too_few_boats_or_slips_without_a_time(boats: tuple[tuple[str, str], ...]) -> None:
    assert lead_of(standings_of(event_of(*boats))) is None


def test_the_weights_are_said_with_their_boats_and_fish() -> None:
    bags = bags_of(standings_of(event_of(*WEIGHED)))
    assert bags is not None
    # Half of 6, 8, 9 and 9.5 lies at 8.5; 32.50 lb of 20 fish are 1.625 each
    assert bags.said == (
        "Half of the 4 boats weighed 8.50 lb or more, the heaviest 9.50 lb. A fish weighed 1.63 lb on average (20 fish)."
    )
    assert bags.boats == [
        (4, 5, "9.50", "1.90"),
        (2, 5, "9.00", "1.80"),
        (3, 5, "8.00", "1.60"),
        (1, 5, "6.00", "1.20"),
    ]
    assert bags_of(standings_of(event_of(*WEIGHED[:2], name="Two"))) is None


def test_a_level_of_the_lead_is_drawn_by_its_two_ends() -> None:
    lead = lead_of(standings_of(event_of(*WEIGHED)))
    assert lead is not None
    line = next(mark for mark in lead.drawings.whole.marks if isinstance(mark, Polyline))
    # 6.00, up to 9.00, up to 9.50: the boat at 2:40 PM changed nothing
    assert len(line.points) == 5 and len({y for _, y in line.points}) == 3


def test_pages_show_both_and_the_public_only_what_it_may_know() -> None:
    event = event_of(*WEIGHED)
    Event.objects.filter(pk=event.pk).update(is_public=True, revision=event.revision + 1)
    for client, name in ((world.member(event.club), "standings:live"), (Client(), "public:standings")):
        html = client.get(reverse(name, args=[event.slug])).content.decode()
        assert "The lead changed 2 times." in html and html.count("<svg") == 6 and "style=" not in html
        assert html.count("<desc") == 6 and "Every change of the lead" in html
        assert (
            "<tr><th>4</th><td>5</td><td>9.50</td><td>1.90</td></tr>"
            in html.split("The weights in figures</caption>")[1]
        )


def test_pounds_and_ounces_are_said_as_such() -> None:
    slips = [
        world.slip(
            boat=str(n), fish="5", alive="5", dead="0", weighed=f"14:0{n}", gross=f"{n + 5}-08", largest_weights=""
        )
        for n in (1, 2, 3)
    ]
    standings = standings_of(world.event("Ounces", world.pairs(3), slips, weight_unit="lb-oz"))
    bags, lead = bags_of(standings), lead_of(standings)
    assert bags is not None and "weighed 7 lb 8 oz or more" in bags.said
    assert lead is not None and lead.said.startswith("Highest total: Pair 3, 8 lb 8 oz, weighed at 2:03 PM.")
    assert Decimal("8.5") in {row.result.gross for row in standings.outcome.ranked}
