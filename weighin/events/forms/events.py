"""Forms of an event, its days and its flights; every field with its meaning beside it."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any
from zoneinfo import available_timezones

from django import forms
from django.utils.translation import gettext, gettext_lazy

from weighin.clubs.models import Club, Season, Water
from weighin.events.domain.measured import degrees
from weighin.events.domain.temperatures import usual_unit
from weighin.events.models import Event, EventDay, Flight, Handling
from weighin.events.queries.club_sheets import kept_choices, named_sheet
from weighin.events.queries.faults import written_day_faults, written_faults
from weighin.rules.faults import Fault
from weighin.ui import figures
from weighin.ui.forms.fields import ClockField, MoneyField
from weighin.ui.forms.service import ServiceForm
from weighin.ui.parsing import typed

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

UNITS = [
    ("lb", gettext_lazy("pounds with decimals, such as 9.47")),
    ("lb-oz", gettext_lazy("pounds and ounces, such as 9-07.5")),
    ("kg", gettext_lazy("kilograms, such as 4.295")),
]
US_ZONES = (
    "America/New_York", "America/Detroit", "America/Indiana/Indianapolis", "America/Kentucky/Louisville", "America/Chicago",
    "America/Denver", "America/Boise", "America/Phoenix", "America/Los_Angeles", "America/Anchorage", "Pacific/Honolulu",
)  # fmt: skip
DAY_STATUS = [
    (EventDay.Status.FISHED, gettext_lazy("Fished: as planned")),
    (EventDay.Status.SHORTENED, gettext_lazy("Shortened: begun late or broken off")),
    (EventDay.Status.CANCELLED, gettext_lazy("Cancelled: no slips, counts nowhere")),
]


def _date(label: "StrOrPromise", **kwargs: Any) -> forms.DateField:
    return forms.DateField(label=label, widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}), **kwargs)


def _time(label: "StrOrPromise", **kwargs: Any) -> ClockField:
    return ClockField(label=label, **kwargs)


def zone_choices(chosen: str) -> list[tuple[str, list[tuple[str, str]]]]:
    """The time zones of places by name, those of the United States first; another name only where it is ``chosen``."""
    of_places = {zone for zone in available_timezones() if "/" in zone and not zone.startswith("Etc/")}
    others = sorted((of_places | ({chosen} & available_timezones())).difference(US_ZONES))
    groups = ((gettext("United States"), US_ZONES), (gettext("Elsewhere"), others))
    return [(name, [(zone, zone) for zone in zones]) for name, zones in groups]


def _money(label: "StrOrPromise", help_text: "StrOrPromise") -> MoneyField:
    return MoneyField(label=label, help_text=help_text, initial="0.00")


def _add_faults(form: ServiceForm, faults: Iterable[Fault]) -> None:
    form.add_faults(faults)


def _note(help_text: "StrOrPromise", most: int) -> forms.CharField:
    return forms.CharField(
        label=gettext_lazy("Note"),
        required=False,
        max_length=most,
        help_text=help_text,
        widget=forms.Textarea(attrs={"rows": 3}),
    )


class EventForm(ServiceForm):
    """An event's own fields. ``choices_of`` says which seasons and waters there are to choose from."""

    name = forms.CharField(
        label=gettext_lazy("Event"),
        max_length=120,
        help_text=gettext_lazy("As it appears on results and in its address."),
    )
    season = forms.ModelChoiceField(
        Season.objects.none(),
        label=gettext_lazy("Season"),
        help_text=gettext_lazy("Points and fish of a season’s events are added up together."),
    )
    water = forms.ModelChoiceField(
        Water.objects.none(), label=gettext_lazy("Lake"), help_text=gettext_lazy("The lake that is fished.")
    )
    date = _date(gettext_lazy("First day"))
    days = forms.IntegerField(
        label=gettext_lazy("Days"),
        min_value=1,
        max_value=60,
        initial=1,
        help_text=gettext_lazy("They follow each other; each can be moved, shortened or cancelled afterwards."),
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
    )
    start_time = _time(gettext_lazy("Start"), initial="06:00", help_text=gettext_lazy("When boats may leave."))
    due_time = _time(
        gettext_lazy("Due"),
        initial="15:00",
        help_text=gettext_lazy("When boats must be checked in. Earlier than the start means after midnight."),
    )
    time_zone = forms.CharField(
        label=gettext_lazy("Time zone"),
        max_length=60,
        initial="America/Chicago",
        help_text=gettext_lazy("Of the water’s clocks, such as America/Chicago."),
        widget=forms.Select,
    )
    weight_unit = forms.ChoiceField(
        label=gettext_lazy("Weight unit"),
        choices=UNITS,
        initial="lb",
        widget=forms.RadioSelect,
        help_text=gettext_lazy("What the scale shows. It cannot change once a slip is saved."),
    )
    handling = forms.ChoiceField(
        label=gettext_lazy("The fish are"),
        choices=lambda: [(value, label.lower()) for value, label in Handling.choices],
        initial=Handling.HOLD_RELEASE,
        widget=forms.RadioSelect,
        help_text=gettext_lazy("Your permit and the agency’s rules go before this sheet."),
    )
    entry_fee = _money(
        gettext_lazy("Entry fee"), gettext_lazy("What a team pays. How much is paid back stands in the rule sheet.")
    )
    added_money = _money(
        gettext_lazy("Added money"), gettext_lazy("Added to the purse beside the fees, by the club or others.")
    )
    fee_reason = forms.CharField(
        label=gettext_lazy("Why the entry fee changes"),
        required=False,
        max_length=300,
        help_text=gettext_lazy("Needed once a team has paid. The money page then shows who owes."),
    )
    lake_temp = forms.CharField(
        label=gettext_lazy("Lake temperature"),
        required=False,
        max_length=20,
        help_text=gettext_lazy(
            "Such as 82 °F or 27.8 °C; a bare figure is in °F, in an event in kilograms in °C. A day may have its own."
        ),
    )
    elevation_ft = forms.CharField(
        label=gettext_lazy("Elevation"),
        required=False,
        max_length=20,
        help_text=gettext_lazy("Of the water’s surface. Blank takes the water’s own when the event is added."),
        widget=forms.TextInput(attrs={"inputmode": "decimal"}),
    )
    permit = forms.CharField(
        label=gettext_lazy("Permit"),
        required=False,
        max_length=500,
        help_text=gettext_lazy("Number, agency, and by when it wants its report."),
    )
    note = _note(gettext_lazy("For the club’s members only."), 2000)

    def __init__(self, *args: Any, club: Club, fee_is_paid: bool = False, **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["time_zone"].widget.choices = zone_choices(str(self["time_zone"].value()))
        if not fee_is_paid:
            del self.fields["fee_reason"]
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


class SheetField(forms.ChoiceField):
    """A sheet by its name in addresses, or an event by its key."""

    def prepare_value(self, value: Any) -> Any:
        return value.pk if isinstance(value, Event) else value


class NewEventForm(EventForm):
    """A new event, with the rule sheet it starts from."""

    rules_from = SheetField(
        label=gettext_lazy("Rule sheet"),
        required=False,
        help_text=gettext_lazy(
            "A sheet of the club, one to start from, or another event’s. It can be changed until the first slip."
        ),
    )

    def __init__(self, *args: Any, club: Club, **kwargs: Any):
        super().__init__(*args, club=club, **kwargs)
        self.club = club
        events = [(str(event.pk), _as_in(event)) for event in Event.objects.filter(season__club=club)]
        of_events = [(gettext("Events"), events)] if events else []
        self.fields["rules_from"].choices = [("", gettext("the defaults")), *kept_choices(club), *of_events]  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        source = data.get("rules_from")
        if source and source.isdigit():
            data["rules_from"] = Event.objects.select_related("rule_sheet").get(pk=source)
        else:
            data["rules_from"] = named_sheet(self.club, source or "", data.get("weight_unit") or "lb")
        return data


class DayForm(ServiceForm):
    """One day of an event."""

    status = forms.ChoiceField(label=gettext_lazy("This day was"), choices=DAY_STATUS, widget=forms.RadioSelect)
    date = _date(gettext_lazy("Date"))
    start_time = _time(gettext_lazy("Start"), required=False)
    due_time = _time(gettext_lazy("Due"), required=False)
    lake_temp = forms.CharField(
        label=gettext_lazy("Lake temperature"),
        required=False,
        max_length=20,
        help_text=gettext_lazy("Such as 82 °F or 27.8 °C."),
    )
    air_temp = forms.CharField(label=gettext_lazy("Air temperature"), required=False, max_length=20)
    weather = forms.CharField(
        label=gettext_lazy("Weather"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("In a few words: sky, wind, thunder heard."),
    )
    note = _note(gettext_lazy("What this day’s figures should be read with."), 2000)

    def __init__(self, *args: Any, event: Event, **kwargs: Any):
        super().__init__(*args, **kwargs)
        start, due = figures.clock(event.start_time), figures.clock(event.due_time)
        self.fields["start_time"].help_text = gettext("Blank is the event’s own, %(time)s.") % {"time": start}
        blank_due = gettext("Blank is the event’s own, %(time)s. Check-in is held against it.")
        self.fields["due_time"].help_text = blank_due % {"time": due}
        self.unit = usual_unit(event.weight_unit, event.lake_temp)
        bare = gettext("A bare figure is in °%(unit)s.") % {"unit": self.unit}
        for name in ("lake_temp", "air_temp"):
            self.fields[name].help_text = f"{self.fields[name].help_text} {bare}"
        if event.lake_temp:
            own = gettext("Blank is the event’s own, %(temperature)s.") % {"temperature": degrees(event.lake_temp)}
            self.fields["lake_temp"].help_text = f"{self.fields['lake_temp'].help_text} {own}"

    def clean(self) -> dict[str, Any]:
        data = self.cleaned_data
        for name in ("lake_temp", "air_temp"):
            if data.get(name):
                data[name] = typed.degrees(data[name], self.unit)
        _add_faults(self, written_day_faults(data))
        return data


class FlightForm(ServiceForm):
    """A flight's due time, on every day or on one."""

    name = forms.CharField(
        label=gettext_lazy("Flight"), max_length=40, help_text=gettext_lazy("Its number or letter, such as 1 or A.")
    )
    day = forms.TypedChoiceField(
        label=gettext_lazy("Day"),
        required=False,
        coerce=int,
        empty_value=None,
        help_text=gettext_lazy("A day’s own row goes before the one for every day."),
    )
    launch = _time(gettext_lazy("Launch"), required=False, help_text=gettext_lazy("When its boats leave."))
    due_time = _time(gettext_lazy("Due"), help_text=gettext_lazy("When its boats must be checked in."))

    def __init__(self, *args: Any, days: list[int], **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.fields["day"].choices = [("", gettext("every day")), *((n, gettext("day %(n)s") % {"n": n}) for n in days)]  # type: ignore[attr-defined]

    @staticmethod
    def written(flight: Flight) -> dict[str, Any]:
        """A flight as the form shows it."""
        return {name: getattr(flight, name) for name in ("name", "day", "launch", "due_time")}


class RemoveForm(ServiceForm):
    """Nothing to write: a flight is removed."""


def _as_in(event: Event) -> str:
    return gettext("as in %(name)s, %(date)s") % {"name": event.name, "date": f"{event.date:%Y}"}
