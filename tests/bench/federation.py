"""Many clubs' slips, written straight into a database: believable counts, the same every time."""

from datetime import date, datetime, timedelta
from random import Random
from zoneinfo import ZoneInfo

CLUBS, BOATS = 20, 100
NOON = datetime(2026, 6, 1, 12, tzinfo=ZoneInfo("UTC"))


def make(first: int, slips: int) -> None:
    """So many slips of events of 100 boats, spread over 20 clubs and ten years; ``first`` slips are there already."""
    from weighin.clubs.models import Club, Season, Water
    from weighin.events.models import Event, EventDay, RuleSheet
    from weighin.roster.models import Entry, Team
    from weighin.slips.models import WeighSlip

    rng = Random(first)
    seasons = []
    for number in range(CLUBS):
        club, _ = Club.objects.get_or_create(name=f"Club {number}", slug=f"club-{number}")
        water, _ = Water.objects.get_or_create(club=club, name="Reach")
        season, made = Season.objects.get_or_create(club=club, name="2026", slug="2026")
        if made:
            Team.objects.bulk_create(
                Team(season=season, folded_name=f"team {n}", name=f"Team {n}") for n in range(BOATS)
            )
        seasons.append((season, water, list(season.teams.all())))
    for number in range(first // BOATS, (first + slips) // BOATS):
        season, water, teams = seasons[number % CLUBS]
        day = date(2017 + number % 10, 3 + number % 8, 1 + number % 27)
        event = Event.objects.create(
            season=season, water=water, name=f"Event {number}", slug=f"event-{number}", date=day, weight_unit="lb",
            lake_temp=f"{55 + number % 33} F",
        )  # fmt: skip
        EventDay.objects.create(event=event, number=1, date=day)
        RuleSheet.objects.create(event=event, written={})
        entries = Entry.objects.bulk_create(
            Entry(event=event, team=team, boat=boat, number=boat, name=team.name)
            for boat, team in enumerate(teams, start=1)
        )
        WeighSlip.objects.bulk_create(
            [_slip(rng, event, entry, place) for place, entry in enumerate(entries, start=1)], batch_size=500
        )


def _slip(rng: Random, event: object, entry: object, place: int) -> object:
    from weighin.slips.models import WeighSlip

    fish = rng.choice([0, 5, 6, 7, 7, 7])
    dead = min(fish, rng.choice([0, 0, 0, 0, 1, 2]))
    return WeighSlip(
        event=event, entry=entry, number=place, day=1, fish=fish, alive=fish - dead, dead=dead, gross="8.00",
        weighed=NOON + timedelta(minutes=place), recorded_by="bench", position=place, link="0" * 64,
    )  # fmt: skip
