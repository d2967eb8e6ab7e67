"""An event that is fished today, its scales open, for tests of the page at the table."""

import json
import sqlite3
from datetime import datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from second_reading.workbook import write
from served import Site

SLUG = "today-on-the-slough-2026"
TEAMS = ("Ilse & Marlow", "Bracken & Thorne", "Quill & Sedge")
RULES = {"dead_fish_penalty": "0.25", "short_fish": "lose_largest", "late_penalty_per_minute": "1", "over_limit": "remove_largest"}


def open_scales(site: Site, folder: Path, boats: int = 14, **rules: str) -> None:
    """Bring in an event of the demo's club that is fished today; nothing is weighed yet."""
    today = datetime.now(ZoneInfo("America/Chicago")).date().isoformat()
    said = {
        "club": "Dunnock Valley Crappie Club",
        "season": "2026",
        "event": "Today on the slough",
        "water": "Merrow Lake",
        "date": today,
        "weight_unit": "lb",
        "start_time": "00:05",
        "due_time": "23:55",
    }
    sheets: dict[str, Any] = {
        "Event": [{"key": key, "value": value} for key, value in said.items()],
        "Rules": [{"key": key, "value": value} for key, value in {**RULES, **rules}.items()],
        "Teams": [
            {"boat": str(n), "team": TEAMS[n - 1] if n <= len(TEAMS) else f"Pair {n}", "angler_1": f"Angler {n}"}
            for n in range(1, boats + 1)
        ],
    }
    file = folder / "today.xlsx"
    write(sheets, file)
    done = site.manage("import_event", str(file))
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.split()[-1] == SLUG, done.stdout


def token(site: Site, name: str = "Table 1") -> str:
    """Pair a station and give its token."""
    code = (
        "from weighin.events.models import Event; from weighin.scale.stations import make_station; "
        f"print(make_station(Event.objects.get(slug={SLUG!r}), {name!r}, ['weigh', 'checkin'], 'test')[1])"
    )
    done = site.manage("shell", "--verbosity", "0", "-c", code)
    assert done.returncode == 0, done.stderr
    return done.stdout.split()[-1]


def rows(site: Site) -> list[tuple[str, int, str]]:
    """(id, boat, weight) of every slip of the event, from the database itself."""
    with sqlite3.connect(site.data / "weighin.sqlite3") as database:
        return database.execute(
            "select s.id, e.boat, s.gross from scale_weighslip s join roster_entry e on e.id = s.entry_id "
            "join events_event v on v.id = s.event_id where v.slug = ? order by s.number",
            [SLUG],
        ).fetchall()


def document(site: Site, secret: str) -> dict[str, Any]:
    """What the site tells a station."""
    status, _, text = site.ask(f"/api/events/{SLUG}/station", Authorization=f"Bearer {secret}")
    assert status == 200, text
    found: dict[str, Any] = json.loads(text)
    return found
