"""Two events of 40 boats with long names in the demo's club, one in the middle of its day and one official, and a small one to publish.

Run in the site's shell.
"""

from datetime import timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import world
from django.utils import timezone

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.clubs.models import Club, Membership
from weighin.operations.queries.open_questions import open_questions
from weighin.operations.services.publishing import publish
from weighin.standings.services import set_public

CLUB = "Dunnock Valley Crappie Club"
BOATS = 40
GOING_ON, OFFICIAL, READY = "Forty going on", "Forty official", "Five to publish"
# 24 letters in one word, two full names, and one of each beside the other
TEAMS = (
    "Featherstonehaughingtons",
    "Maximiliana Featherstone-Whitcombe & Bartholomew Osperrington-Dunmallet",
    "Llanfairpwllgwyngyllgoge / Christophersonsdaughters",
    "Quillet",
)
ANGLERS = ("Maximiliana Featherstone-Whitcombe", "Bartholomew Christophersonsdaughters")
PASS_PHRASE = "heron over still water"


def make() -> None:
    """The events, and somebody of every role in their club; who is to walk as one signs in as walks-as-ROLE."""
    zone = ZoneInfo("America/Chicago")
    today = timezone.now().astimezone(zone).date()
    official = _event(OFFICIAL, (today - timedelta(days=9)).isoformat(), BOATS)
    publish(official, "maker", "", {q.key: "an invented event" for q in open_questions(official)})
    going_on = _event(GOING_ON, today.isoformat(), 18)
    set_public(going_on, True, "maker")
    _event(READY, (today - timedelta(days=2)).isoformat(), 5, 5)
    club = Club.objects.get(name=CLUB)
    for role in Role:
        person = User.objects.create_user(f"walks-as-{role.value}", password=PASS_PHRASE)
        Membership.objects.create(user=person, club=club, role=role)
    User.objects.create_superuser("walks-as-administrator", password=PASS_PHRASE)


def _event(name: str, date: str, weighed: int, boats: int = BOATS) -> world.Event:
    teams, slips, care, check_ins = [], [], [], []
    for boat in range(1, boats + 1):
        team = f"{TEAMS[boat % len(TEAMS)]} {boat}"
        teams.append(
            {"boat": str(boat), "team": team, "angler_1": f"{ANGLERS[0]} {boat}", "angler_2": f"{ANGLERS[1]} {boat}"}
            | {"flight": "AB"[boat % 2], "paid": "yes", "big_fish_pot": "yes", "lot": str(boat)}
        )
        if boat > weighed + 10:
            continue
        check_ins.append({"day": "1", "boat": str(boat), "checked_in": f"14:{boat + 10}", "official": "R. Quill"})
        if boat > weighed:
            continue
        dead = str(boat % 7 // 5)
        gross = Decimal("11.20") - Decimal(boat) / 8
        slips.append(
            world.slip(boat=str(boat), alive=str(7 - int(dead)), dead=dead, gross=f"{gross:.2f}", official="R. Quill")
            | {"big_fish": f"{gross / 5:.2f}", "big_fish_alive": "yes", "weighed": f"14:{boat + 12}", "tare": "0.50"}
            | {"bag_issued": f"14:{boat + 11}", "minutes_late": "4" if boat == 9 else ""}
        )
        care.append(
            {"day": "1", "boat": str(boat), "pump_ok": "yes", "aeration": "recirculated", "livewell_gal": "24"}
            | {"ice_lb": "10", "thermometer_ok": "no", "launched": "06:10", "first_fish": "07:00", "livewell_do": "7"}
            | {"livewell_temp": "58 F", "reflexes_absent": "1", "reflexes_checked": "5", "most_on_board": "7"}
        )
    return world.event(
        name,
        teams,
        slips,
        rules={"places_paid": "1 per 5", "big_fish_shares": "60, 40"},
        more={
            "Fish care": care,
            "Check-ins": check_ins,
            "Flights": [{"flight": "A", "due_time": "15:00"}, {"flight": "B", "due_time": "15:30"}],
        },
        club=CLUB,
        season="2026",
        water="Lake Ottermere",
        date=date,
        entry_fee="120.00",
    )
