"""Forms of an event, its days and its flights; every field with its meaning beside it."""

from collections.abc import Iterable
from typing import Any

from django import forms

from weighin.clubs.models import Club, Season, Water
from weighin.events.domain.temperatures import usual_unit
from weighin.events.models import Event, EventDay, Flight, Handling
from weighin.events.queries.faults import written_day_faults, written_faults
from weighin.rules.faults import Fault
from weighin.ui.forms.fields import ClockField, MoneyField
from weighin.ui.forms.service import ServiceForm
from weighin.ui.parsing import typed

UNITS = [
    ("lb", "pounds with decimals, such as 9.47"),
    ("lb-oz", "pounds and ounces, such as 9-07.5"),
    ("kg", "kilograms, such as 4.295"),
]
ZONES = (
    "America/New_York", "America/Chicago", "America/Denver", "America/Phoenix", "America/Los_Angeles", "America/Anchorage",
    "Pacific/Honolulu", "America/Toronto", "America/Winnipeg", "America/Edmonton", "America/Vancouver", "America/Halifax",
)  # fmt: skip
DAY_STATUS = [
    (EventDay.Status.FISHED, "Fished: as planned"),
    (EventDay.Status.SHORTENED, "Shortened: begun late or broken off"),
    (EventDay.Status.CANCELLED, "Cancelled: no slips, counts nowhere"),
]


def _date(label: str, **kwargs: Any) -> forms.DateField:
    return forms.DateField(label=label, widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}), **kwargs)


def _time(label: str, **kwargs: Any) -> ClockField:
    return ClockField(label=label, widget=forms.TimeInput(format="%H:%M", attrs={"type": "time"}), **kwargs)


def _money(label: str, help_text: str) -> MoneyField:
    return MoneyField(label=label, help_text=help_text, initial="0.00")


def _add_faults(form: ServiceForm, faults: Iterable[Fault]) -> None:
    form.add_faults(faults)


def _note(help_text: str, most: int) -> forms.CharField:
    return forms.CharField(
        label="Note", required=False, max_length=most, help_text=help_text, widget=forms.Textarea(attrs={"rows": 3})
    )


class EventForm(ServiceForm):
    """An event's own fields. ``choices_of`` says which seasons and waters there are to choose from."""

    name = forms.CharField(
        label="Event", max_length=120, help_text="As it stands on results. Its address is made from it."
    )
    season = forms.ModelChoiceField(
        Season.objects.none(), help_text="Points and fish of a season's events are added up together."
    )
    water = forms.ModelChoiceField(Water.objects.none(), help_text="The water that is fished.")
    date = _date("First day")
    days = forms.IntegerField(
        label="Days",
        min_value=1,
        max_value=60,
        initial=1,
        help_text="They follow each other; each can be moved, shortened or cancelled afterwards.",
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
    )
    start_time = _time("Start", initial="06:00", help_text="When boats may leave.")
    due_time = _time(
        "Due", initial="15:00", help_text="When boats must be checked in. Earlier than the start means after midnight."
    )
    time_zone = forms.CharField(
        label="Time zone",
        max_length=60,
        initial="America/Chicago",
        help_text="Of the water's clocks, such as America/Chicago.",
        widget=forms.TextInput(attrs={"list": "zones", "autocapitalize": "none", "spellcheck": "false"}),
    )
    weight_unit = forms.ChoiceField(
        label="Weight unit",
        choices=UNITS,
        initial="lb",
        widget=forms.RadioSelect,
        help_text="What the scale shows. It stays once a slip is kept.",
    )
    handling = forms.ChoiceField(
        label="The fish are",
        choices=[(value, label.lower()) for value, label in Handling.choices],
        initial=Handling.HOLD_RELEASE,
        widget=forms.RadioSelect,
        help_text="Your permit and the agency's rules go before this sheet.",
    )
    entry_fee = _money("Entry fee", "What a team pays. How much is paid back stands in the rule sheet.")
    added_money = _money("Added money", "Put into the purse beside the fees, by the club or others.")
    lake_temp = forms.CharField(
        label="Lake temperature",
        required=False,
        max_length=20,
        help_text="Such as 82 F or 27.8 C; a bare figure is in °F, in an event in kilograms in °C. A day may have its own.",
    )
    elevation_ft = forms.CharField(
        label="Elevation",
        required=False,
        max_length=20,
        help_text="Of the water's surface. Blank takes the water's own when the event is made.",
        widget=forms.TextInput(attrs={"inputmode": "decimal"}),
    )
    permit = forms.CharField(
        label="Permit", required=False, max_length=500, help_text="Number, agency, and by when it wants its report."
    )
    note = _note("For the club's members only.", 2000)

    def __init__(self, *args: Any, club: Club, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["season"].queryset = club.seasons.all()  # type: ignore[attr-defined]
        self.fields["water"].queryset = club.waters.all()  # type: ignore[attr-defined]
        self.fields["elevation_ft"].unit = "ft"  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """A bare temperature in the unit of the event's figures, and every fault of a field beside those of the form."""
        data = self.cleaned_data
        if data.get("lake_temp"):
            data["lake_temp"] = typed.degrees(data["lake_temp"], usual_unit(data.get("weight_unit", "")))
        data["elevation_ft"] = typed.without_unit(data.get("elevation_ft", ""), "ft")
        _add_faults(self, written_faults(data))
        return data


class NewEventForm(EventForm):
    """A new event, with the rule sheet it starts from."""

    rules_from = forms.ModelChoiceField(
        Event.objects.none(),
        label="Rule sheet",
        required=False,
        empty_label="the defaults",
        help_text="Start from the defaults or from another event's sheet. It can be changed until the first slip.",
    )

    def __init__(self, *args: Any, club: Club, **kwargs: Any):
        super().__init__(*args, club=club, **kwargs)
        events = Event.objects.filter(season__club=club).select_related("rule_sheet")
        if events.exists():
            self.fields["rules_from"].queryset = events  # type: ignore[attr-defined]
            self.fields["rules_from"].label_from_instance = _as_in  # type: ignore[attr-defined]
        else:
            del self.fields["rules_from"]


class DayForm(ServiceForm):
    """One day of an event."""

    status = forms.ChoiceField(label="This day was", choices=DAY_STATUS, widget=forms.RadioSelect)
    date = _date("Date")
    start_time = _time("Start", required=False)
    due_time = _time("Due", required=False)
    lake_temp = forms.CharField(
        label="Lake temperature", required=False, max_length=20, help_text="Such as 82 F or 27.8 C."
    )
    air_temp = forms.CharField(label="Air temperature", required=False, max_length=20)
    weather = forms.CharField(
        label="Weather", required=False, max_length=200, help_text="In a few words: sky, wind, thunder heard."
    )
    note = _note("What this day's figures should be read with.", 2000)

    def __init__(self, *args: Any, event: Event, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["start_time"].help_text = f"Blank is the event's own, {event.start_time:%H:%M}."
        self.fields[
            "due_time"
        ].help_text = f"Blank is the event's own, {event.due_time:%H:%M}. Check-in is held against it."
        self.unit = usual_unit(event.weight_unit, event.lake_temp)
        for name in ("lake_temp", "air_temp"):
            self.fields[name].help_text += f" A bare figure is in °{self.unit}."
        if event.lake_temp:
            self.fields["lake_temp"].help_text += f" Blank is the event's own, {event.lake_temp}."

    def clean(self) -> dict[str, Any]:
        data = self.cleaned_data
        for name in ("lake_temp", "air_temp"):
            if data.get(name):
                data[name] = typed.degrees(data[name], self.unit)
        _add_faults(self, written_day_faults(data))
        return data


class FlightForm(ServiceForm):
    """A flight's due time, on every day or on one."""

    name = forms.CharField(label="Flight", max_length=40, help_text="Its number or letter, such as 1 or A.")
    day = forms.TypedChoiceField(
        label="Day",
        required=False,
        coerce=int,
        empty_value=None,
        help_text="A day's own row goes before the one for every day.",
    )
    launch = _time("Launch", required=False, help_text="When its boats leave.")
    due_time = _time("Due", help_text="When its boats must be checked in.")

    def __init__(self, *args: Any, days: list[int], **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["day"].choices = [("", "every day"), *((n, f"day {n}") for n in days)]  # type: ignore[attr-defined]

    @staticmethod
    def written(flight: Flight) -> dict[str, Any]:
        """A flight as the form shows it."""
        return {name: getattr(flight, name) for name in ("name", "day", "launch", "due_time")}


class RemoveForm(ServiceForm):
    """Nothing to write: a flight is removed."""


def _as_in(event: Event) -> str:
    return f"as in {event.name}, {event.date:%Y}"
