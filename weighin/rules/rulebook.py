"""The rule sheet: every key, what it means, its default, and how it is read and written.

A rule sheet is a mapping of keys to written text. ``read`` turns it into a frozen ``Rulebook`` or
raises ``Faults`` that name every wrong key at once; ``Rulebook.written`` gives every key back as text.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from decimal import Decimal
from typing import Any

from weighin.rules import values, weights
from weighin.rules.faults import Fault, Faults, FieldName, Sentence, Wrong, gettext_noop, ngettext_noop
from weighin.rules.sheet.key import Key
from weighin.rules.sheet.keys import BY_NAME, KEYS, default_of

MORE_THAN_ONE_VALUE = Sentence(
    "more_than_one_value",
    gettext_noop("'%(text)s' is more than one value, or has a decimal comma: %(key)s takes one value, with a point"),
)
CANNOT_BE_NONE = Sentence("cannot_be_none", gettext_noop("%(key)s cannot be none: write a value"))
NOT_A_NUMBER_OF_PLACES = Sentence(
    "not_a_number_of_places", gettext_noop("'%(text)s' is not a number of places: write a number such as 6, or 1 per 5")
)
NOT_A_KEY = Sentence(
    "not_a_key", gettext_noop("'%(key)s' is not a key of the rule sheet: delete it or correct its spelling")
)
CUT_AFTER_LAST_DAY = Sentence(
    "cut_after_last_day",
    ngettext_noop(
        "the event has %(days)s day: a cut falls before the last day, choose an earlier one",
        "the event has %(days)s days: a cut falls before the last day, choose an earlier one",
    ),
    count="days",
)
CUT_NEEDS_KEEP = Sentence("cut_needs_keep", gettext_noop("a cut needs %(cut_keep)s too: say how many teams fish on"))
KEEP_NEEDS_CUT = Sentence(
    "keep_needs_cut",
    gettext_noop("%(cut_keep)s needs %(cut_after_day)s too: say after which day the cut falls, or leave both empty"),
)
ROUNDING_NOT_ABOVE_ZERO = Sentence(
    "rounding_not_above_zero", gettext_noop("write more than 0, such as 1.00 for whole money or 0.01 for cents")
)
TIE_TWICE = Sentence("tie_twice", gettext_noop("%(tie)s stands in the list twice: keep the first"))
SHARE_NOT_LAST = Sentence(
    "share_not_last", gettext_noop("share ends the list: delete what is after it, or move share to the end")
)
SHARES_ALL_ZERO = Sentence("shares_all_zero", gettext_noop("the shares are all zero: give at least one place a share"))


@dataclass(frozen=True)
class PlacesPaid:
    """How many places are paid: a fixed number, or one for every ``one_per`` paid entries."""

    number: int | None = None
    one_per: int | None = None

    def written(self) -> str:
        return f"1 per {self.one_per}" if self.number is None else str(self.number)


@dataclass(frozen=True)
class Rulebook:
    """A rule sheet, read. Weights are Decimal in the event's unit (pounds for ``lb-oz``), money is Decimal.

    ``None`` stands for the written ``none``. The meaning of each field is in ``weighin.rules.sheet.keys``.
    """

    unit: str
    species: str
    fish_limit: int
    bag_tare: Decimal
    boat_limit: int | None
    minimum_length_in: Decimal | None
    dead_fish: str
    dead_fish_penalty: tuple[Decimal, ...]
    dead_fish_big_fish: bool
    short_fish: str
    short_fish_penalty: Decimal
    over_limit: str
    over_limit_penalty: Decimal
    late_penalty_per_minute: Decimal
    late_grace_minutes: Decimal
    late_disqualify_after_minutes: Decimal | None
    late_reduces_big_fish: bool
    live_fish_bonus: Decimal
    negative_totals: str
    ties: tuple[str, ...]
    cut_after_day: int | None
    cut_keep: int | None
    places_paid: PlacesPaid
    payback_percent: Decimal
    place_shares: tuple[Decimal, ...] | None
    rounding: Decimal
    big_fish_pot_fee: Decimal
    big_fish_shares: tuple[Decimal, ...]
    points_table: tuple[Decimal, ...] | None
    points_first: Decimal
    points_step: Decimal
    points_floor: Decimal
    points_no_fish: Decimal | None
    points_not_weighed: Decimal
    points_absent_below_last: Decimal | None
    points_per_pound: Decimal
    points_big_fish: Decimal
    count_best: int | None
    season_ties: tuple[str, ...]
    care_warm_f: Decimal
    care_max_cooling_f: Decimal
    care_min_do: Decimal
    care_max_bag_minutes: Decimal
    care_max_held_minutes: Decimal | None
    care_stop_percent: Decimal
    deep_fish_kept_ft: Decimal | None
    measured_lengths_above: Decimal | None

    @property
    def dead_are_weighed(self) -> bool:
        """Whether dead fish go on the scale."""
        return self.dead_fish == "penalty"

    @property
    def dead_cost_weight(self) -> bool:
        """Whether each dead fish costs weight."""
        return self.dead_fish in ("penalty", "both")

    def written(self) -> dict[str, str]:
        """Every key as text that ``read`` turns into the same rulebook."""
        return {key.name: _write(key, getattr(self, key.name), self.unit) for key in KEYS}


def defaults(unit: str) -> Rulebook:
    """The rule sheet with every key at its default for the event's unit."""
    return read({}, unit)


def read(written: Mapping[str, str], unit: str) -> Rulebook:
    """Read a rule sheet in the event's unit (``lb``, ``lb-oz`` or ``kg``).

    A missing key or empty text means the default. Raises Faults with the key as each fault's field:
    an unknown key, a value that cannot be read, and keys that contradict each other.
    """
    rules, faults = read_what_can_be(written, unit)
    if faults:
        raise Faults(faults)
    return rules


def read_what_can_be(written: Mapping[str, str], unit: str) -> tuple[Rulebook, list[Fault]]:
    """As ``read``, with the faults beside a rulebook in which the keys they name stand at their defaults."""
    faults: list[Fault] = []
    found: dict[str, Any] = {"unit": unit}
    for name in written:
        if name not in BY_NAME:
            faults.append(NOT_A_KEY.at(name, key=name))
    for key in KEYS:
        text = (written.get(key.name) or "").strip() or default_of(key, unit)
        try:
            found[key.name] = _READERS[key.kind](text, key, unit)
        except Wrong as error:
            faults.append(error.at(key.name))
            found[key.name] = _default(key, unit)
    wrong = {fault.field for fault in faults}
    for fault, keys in _contradictions(found):
        if wrong.isdisjoint(keys):
            faults.append(fault)
            found[fault.field] = _default(BY_NAME[fault.field], unit)
    return Rulebook(**found), faults


def cut_faults(rules: Rulebook, days: int) -> list[Fault]:
    """What is wrong with the cut in an event of so many days: nobody could fish on after the last."""
    if rules.cut_after_day is None or rules.cut_after_day < days:
        return []
    return [CUT_AFTER_LAST_DAY.at("cut_after_day", days=days)]


def _default(key: Key, unit: str) -> Any:
    return _READERS[key.kind](default_of(key, unit), key, unit)


def _contradictions(found: dict[str, Any]) -> list[tuple[Fault, tuple[str, ...]]]:
    """What does not go together, each with the keys that make it so."""
    faults: list[tuple[Fault, tuple[str, ...]]] = []
    if found["cut_after_day"] is not None and found["cut_keep"] is None:
        faults.append(
            (CUT_NEEDS_KEEP.at("cut_after_day", cut_keep=FieldName("cut_keep")), ("cut_after_day", "cut_keep"))
        )
    if found["cut_keep"] is not None and found["cut_after_day"] is None:
        faults.append(
            (
                KEEP_NEEDS_CUT.at("cut_keep", cut_keep=FieldName("cut_keep"), cut_after_day=FieldName("cut_after_day")),
                ("cut_after_day", "cut_keep"),
            )
        )
    for key in ("ties", "season_ties"):
        twice = [tie for place, tie in enumerate(found[key]) if tie in found[key][:place]]
        if twice and "share" not in found[key][:-1]:
            faults.append((TIE_TWICE.at(key, tie=twice[0]), (key,)))
        if "share" in found[key][:-1]:
            faults.append((SHARE_NOT_LAST.at(key), (key,)))
    for key in ("place_shares", "big_fish_shares"):
        if found[key] is not None and not any(found[key]):
            faults.append((SHARES_ALL_ZERO.at(key), (key,)))
    if found["rounding"] <= 0:
        faults.append((ROUNDING_NOT_ABOVE_ZERO.at("rounding"), ("rounding",)))
    return faults


def _one(text: str, key: Key) -> str:
    if "," in text:
        raise MORE_THAN_ONE_VALUE.wrong(text=text, key=FieldName(key.name))
    return text


def _is_none(text: str, key: Key) -> bool:
    if values.folded(text) != "none":
        return False
    if not key.optional:
        raise CANNOT_BE_NONE.wrong(key=FieldName(key.name))
    return True


def _optional(reader: Callable[[str, Key, str], Any]) -> Callable[[str, Key, str], Any]:
    return lambda text, key, unit: None if _is_none(text, key) else reader(text, key, unit)


def _places_paid(text: str, key: Key, unit: str) -> PlacesPaid:
    words = text.casefold().split()
    if len(words) == 3 and words[:2] == ["1", "per"]:
        return PlacesPaid(one_per=values.whole(words[2], least=1))
    try:
        return PlacesPaid(number=values.whole(_one(text, key), least=1))
    except Wrong:
        raise NOT_A_NUMBER_OF_PLACES.wrong(text=text) from None


def _text(text: str, key: Key, unit: str) -> str:
    return values.line(text, 80)


_READERS: dict[str, Callable[[str, Key, str], Any]] = {
    "text": _text,
    "whole": _optional(lambda text, key, unit: values.whole(_one(text, key), least=key.least)),
    "number": _optional(lambda text, key, unit: values.decimal(_one(text, key), least=0)),
    "any number": lambda text, key, unit: values.decimal(_one(text, key)),
    "percent": lambda text, key, unit: values.decimal(_one(text, key), least=0, most=100),
    "money": lambda text, key, unit: values.money(_one(text, key)),
    "weight": lambda text, key, unit: weights.read(_one(text, key), unit),
    "weights": lambda text, key, unit: values.items(text, lambda item: weights.read(item, unit)),
    "numbers": _optional(lambda text, key, unit: values.items(text, lambda item: values.decimal(item, least=0))),
    "yes/no": lambda text, key, unit: values.yes_no(text),
    "choice": lambda text, key, unit: values.choice(_one(text, key), key.choices),
    "choices": lambda text, key, unit: values.items(text, lambda item: values.choice(item, key.choices)),
    "places": _places_paid,
    "number or last": lambda text, key, unit: (
        None if values.folded(text) == "last" else values.decimal(_one(text, key), least=0)
    ),
}


def _write(key: Key, value: Any, unit: str) -> str:
    if value is None:
        return "last" if key.kind == "number or last" else "none"
    if isinstance(value, PlacesPaid):
        return value.written()
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(_write_one(key, item, unit) for item in value)
    return _write_one(key, value, unit)


def _write_one(key: Key, value: Any, unit: str) -> str:
    if key.kind.startswith("weight"):
        return weights.show(value, unit)
    if key.kind == "money":
        return f"{value:.2f}"
    return values.plain(value) if isinstance(value, Decimal) else str(value)


assert {f.name for f in fields(Rulebook)} - {"unit"} == set(BY_NAME), (
    "the rulebook and its keys must name the same things"
)
