"""Pages made of every piece of the look, drawn with invented figures."""

from decimal import Decimal
from math import exp
from pathlib import Path

import django_tables2
import pytest
from django import forms
from django.contrib.messages import ERROR, INFO
from django.contrib.messages.storage.base import Message
from django.template import engines
from django.template.loader import render_to_string
from django.test import RequestFactory
from django_tables2 import RequestConfig

from weighin.survival.intervals import wilson
from weighin.ui import charts
from weighin.ui.charts.widths import HALF, PHONE, WHOLE
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable, TotalColumn

PIECES = Path(__file__).parent / "pieces"
DAYS = (
    ("Icebreaker", "14 Mar, Quill Reservoir", 54, 3, 142),
    ("April Open", "11 Apr, Tarn Mere", 61, 5, 203),
    ("Last Leaf", "24 Oct, Merrow Lake", 62, 5, 171),
    ("May Pairs", "2 May, Merrow Lake", 68, 7, 188),
    ("Dogwood Day", "23 May, Quill Reservoir", 73, 9, 176),
    ("September Open", "19 Sep, Quill Reservoir", 76, 10, 158),
    ("Reed Pairs", "20 Jun, Tarn Mere", 80, 15, 186),
    ("August Morning", "15 Aug, Quill Reservoir", 83, 12, 134),
    ("High Summer, the club's longest day of all", "18 Jul, Merrow Lake", 86, 23, 121),
)


class EntryForm(forms.Form):
    boat = forms.IntegerField(min_value=1, help_text="A whole number no other boat of the event has.")
    team = forms.CharField(max_length=60)
    tare = forms.CharField(
        label="Weight of the bag", required=False, widget=forms.TextInput(attrs={"inputmode": "decimal"})
    )
    launch = forms.TimeField(required=False, widget=forms.TimeInput(attrs={"type": "time"}))
    flight = forms.ChoiceField(choices=[("1", "Flight 1"), ("2", "Flight 2")])
    standing = forms.ChoiceField(
        label="Status", choices=[("entered", "Entered"), ("withdrawn", "Withdrawn")], widget=forms.RadioSelect
    )
    paid = forms.BooleanField(label="The entry is paid", required=False)
    note = forms.CharField(required=False, widget=forms.Textarea(attrs={"rows": 3}))

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["tare"].unit = "lb"


class TeamTable(RuledTable):
    caption = "Teams of the event"
    named_by = "team"
    boat = django_tables2.Column()
    team = NameColumn()
    fish = FigureColumn()
    status = django_tables2.Column(orderable=False)
    total = TotalColumn(verbose_name="Total, lb")

    class Meta:
        empty_text = "No team is entered yet. Entries are open until Friday 19 June."


def rate(dead: int, fish: int) -> charts.Rate:
    interval = wilson(dead, fish)
    return charts.Rate(dead, fish, interval.low, interval.high)


def the_strip(width: float) -> charts.Drawing:
    return charts.interval_strip(rate(89, 1479), title="6.0 % of the fish were dead", stop=0.1, width=width)


def the_scatter(width: float) -> charts.Drawing:
    def share(warmth: float, shift: float = 0.0) -> float:
        return 1 / (1 + exp(-(-4.2 + 0.08 * (warmth - 54) + shift)))

    return charts.temperature_scatter(
        [charts.TemperatureRate(warmth, rate(dead, fish)) for _, _, warmth, dead, fish in DAYS],
        title="Warm days went together with more dead fish",
        stop=0.1,
        fit=[charts.Fit(t, share(t), share(t, -0.4), share(t, 0.4)) for t in range(54, 87)],
        width=width,
    )


def the_events(width: float) -> charts.Drawing:
    rows = [charts.EventRate(name, note, rate(dead, fish)) for name, note, _, dead, fish in reversed(DAYS)]
    return charts.events_dots(rows, title="One event was surely beyond the stop level", stop=0.1, width=width)


def the_day(width: float) -> charts.Drawing:
    minutes = range(300, 871, 10)
    lake = tuple((float(m), 79.5 + (m - 300) / 160) for m in minutes)
    well = tuple((float(m), (79.5 if m < 320 else 74.5 + (m - 320) % 190 / 100)) for m in minutes)
    oxygen = tuple((float(m), 7.6 - (m - 300) / 260) for m in minutes)
    return charts.over_the_day(
        [
            charts.Panel(
                "°F",
                (charts.DayLine("the lake", "83 °F", lake, True), charts.DayLine("your well", "75 °F", well)),
            ),
            charts.Panel("mg/L", (charts.DayLine("oxygen", "5.4 mg/L", oxygen),), 5.0, "keep above 5 mg/L"),
        ],
        title="The well stays below the lake",
        description="With ice at 05:20, 08:30, 11:40 and 13:10 the well stays 5 to 8 °F below the lake.",
        moments=[(320, "5 lb ice"), (510, "2 lb"), (700, "2 lb"), (790, "2 lb")],
        width=width,
    )


def the_waits(width: float) -> charts.Drawing:
    """Values far below a limit that is the highest tick."""
    waits = charts.DayLine("in the bag", "1 min", ((851.0, 1.0), (900.0, 1.0)))
    return charts.over_the_day(
        [charts.Panel("min", (waits,), 10.0, "our limit, 10 min")],
        title="No bag waited long",
        description="Each of two boats waited 1 minute.",
        width=width,
    )


def the_level(width: float) -> charts.Drawing:
    """Two lines of one value, which lies on the axis."""
    flat = ((840.0, 61.0), (960.0, 61.0))
    return charts.over_the_day(
        [
            charts.Panel(
                "°F", (charts.DayLine("North tank", "61 °F", flat), charts.DayLine("the lake", "61 °F", flat, True))
            )
        ],
        title="The tank is as warm as the lake",
        description="Tank and lake are at 61 °F.",
        width=width,
    )


def the_spreads(width: float) -> charts.Drawing:
    panels = [
        charts.Spread("Boats", "lb", (3.1, 5.2, 5.2, 6.8, 9.47), 5.2),
        charts.Spread("Average fish of each boat", "lb", (0.62, 0.9, 0.95, 1.1, 1.35), 0.95),
    ]
    return charts.spreads(
        panels, title="Half of 5 boats weighed 5.20 lb or more", description="3.10 lb to 9.47 lb.", width=width
    )


def the_pairs(width: float) -> charts.Drawing:
    rows = [
        charts.Pair("Ice in the livewell", "warmer days", "ice", rate(17, 368), "no ice", rate(38, 248)),
        charts.Pair(
            "Fish on board", "cooler days", "no more than the limit", rate(0, 21), "more than the limit", rate(4, 110)
        ),
    ]
    return charts.paired_dots(rows, title="Share dead by release, with each practice and without it", width=width)


DRAWINGS = {
    "pairs": the_pairs,
    "strip": the_strip,
    "scatter": the_scatter,
    "events": the_events,
    "day": the_day,
    "waits": the_waits,
    "level": the_level,
    "spreads": the_spreads,
}


def rows() -> list[dict[str, object]]:
    teams = ("Lindell & Amaro", "Teasdale & Teasdale", "Okoro & Lund", "Marlowe & Quint", "Bascombe & Ruane")
    return [
        {
            "place": place, "boat": 9 * place % 34, "team": team,
            "fish": "1 dead" if place % 2 == 0 else "all alive",
            "weighed": Decimal("10.42") - place, "off": Decimal("0.25") if place in (2, 3) else None,
            "total": Decimal("10.42") - place - (Decimal("0.25") if place in (2, 3) else 0),
            "big": Decimal("1.88"), "new": place == 3, "open": place == 3, "tied": place == 5,
            "note": "Level with boat 30, ahead on the larger big fish." if place == 4 else "",
        }
        for place, team in enumerate(teams, 1)
    ]  # fmt: skip


def draw(name: str) -> str:
    request = RequestFactory().get("/")
    request._messages = [
        Message(INFO, "Slip 25 is saved."),
        Message(ERROR, "Not kept. Boat 27 has a slip already."),
    ]
    table = TeamTable(
        [{"boat": n, "team": f"Team {n}", "fish": 7, "status": "entered", "total": "9.47"} for n in range(1, 8)]
    )
    RequestConfig(request, paginate={"per_page": 3}).configure(table)
    context = {
        "rows": rows(),
        "form": EntryForm({"boat": "-2", "team": "", "tare": "0.25", "flight": "1"}),
        "table": table,
        "bare": TeamTable([]),
        "unit": "lb",
        "total": Decimal("9.59"),
        "caption": "Slip 25",
        "lines": [
            {"words": "Net weight, 7 fish", "figures": "9.84"},
            {"words": "1 dead fish at 0.25", "figures": "− 0.25"},
            {"words": "No short fish; on time", "figures": "0.00", "nothing": True},
        ],
    }
    for key, drawing in DRAWINGS.items():
        context[key] = charts.drawn(drawing)
    template = engines["django"].from_string((PIECES / f"{name}.html").read_text())
    return template.render(context, request)


def draw_error(name: str) -> str:
    return render_to_string(f"{name}.html")


@pytest.fixture(scope="session")
def pages() -> dict[str, str]:
    """Every page of the pieces and every error page, by name, as HTML."""
    pieces = {path.stem: draw(path.stem) for path in sorted(PIECES.glob("*.html"))}
    return pieces | {name: draw_error(name) for name in ("400", "403", "403_csrf", "404", "500")}


@pytest.fixture(scope="session", params=[(n, w) for n in DRAWINGS for w in (WHOLE, HALF, PHONE)], ids=str)
def drawing(request: pytest.FixtureRequest) -> charts.Drawing:
    """Each chart at each width of page."""
    name, width = request.param
    return DRAWINGS[name](width)
