"""What of an event decides its results, sealed for the history: an act that may have changed it binds it."""

from typing import Any

from weighin.audit.domain.lines import seal
from weighin.events.models import Event, EventDay, Flight, RuleSheet

Seals = dict[str, str | None]

EVENT, RULES, DAYS, FLIGHTS = "event", "rules", "days", "flights"
OF_EVENT = (
    "season_id", "water_id", "name", "slug", "date", "weight_unit", "start_time", "due_time", "time_zone", "entry_fee",
    "added_money",
)  # fmt: skip
OF_DAY = ("number", "date", "start_time", "due_time", "status")
OF_FLIGHT = ("name", "day", "launch", "due_time")


def event_seals(event_id: int) -> Seals:
    """The seals of the event's own fields, its rule sheet, days and flights, as they are kept now."""
    event = Event.everyone.filter(pk=event_id).values(*OF_EVENT).get()
    rules = RuleSheet.objects.filter(event=event_id).values("written", "versions").first() or {"written": None}
    if not rules.get("versions"):
        rules = {"written": rules["written"]}  # as it was sealed before there were changes after the first slip
    days = EventDay.objects.filter(event=event_id).order_by("number").values_list(*OF_DAY)
    flights = Flight.objects.filter(event=event_id).order_by("name", "day", "pk").values_list(*OF_FLIGHT)
    return {
        EVENT: seal({name: _plain(value) for name, value in event.items()}),
        RULES: seal(rules),
        DAYS: seal({"rows": _rows(days)}),
        FLIGHTS: seal({"rows": sorted(_rows(flights), key=repr)}),
    }


def _rows(rows: Any) -> list[list[Any]]:
    return [[_plain(value) for value in row] for row in rows]


def _plain(value: Any) -> Any:
    return value if value is None or isinstance(value, bool | int | str) else str(value)
