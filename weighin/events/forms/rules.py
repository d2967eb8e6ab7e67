"""The rule sheet as a form: every key in its section, its meaning beside it, its default shown."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.translation import gettext, gettext_lazy, gettext_noop

from weighin.rules import rulebook
from weighin.rules.sheet.key import Key
from weighin.rules.sheet.keys import KEYS
from weighin.rules.weights import word
from weighin.ui.forms.fields import TypedField
from weighin.ui.forms.service import ServiceForm
from weighin.ui.parsing import typed

UNITS = {
    "late_grace_minutes": gettext_noop("min"),
    "late_disqualify_after_minutes": gettext_noop("min"),
    "minimum_length_in": gettext_noop("in"),
    "care_warm_f": gettext_noop("°F"),
    "care_max_cooling_f": gettext_noop("°F"),
    "care_min_do": gettext_noop("mg/L"),
    "care_max_bag_minutes": gettext_noop("min"),
    "care_max_held_minutes": gettext_noop("min"),
}

# What nearly every club sets for itself (common practice, no source): these stand first and open
FIRST = (
    "species",
    "fish_limit",
    "minimum_length_in",
    "dead_fish",
    "dead_fish_penalty",
    "late_penalty_per_minute",
    "late_disqualify_after_minutes",
    "ties",
    "places_paid",
    "big_fish_pot_fee",
)

SHORT = {"whole", "number", "weight", "money", "percent"}


@dataclass(frozen=True)
class RuleLine:
    """A key as the page shows it: what is written, and whether that differs from its default."""

    key: Key
    written: str
    default: str

    @property
    def changed(self) -> bool:
        return self.written != self.default


def sections(written: Mapping[str, str], unit: str, left_out: Collection[str] = ()) -> list[tuple[str, list[RuleLine]]]:
    """The whole sheet by section in the order of the keys, without those ``left_out``."""
    found: dict[str, list[RuleLine]] = {}
    defaults = rulebook.defaults(unit).written()
    for key in (key for key in KEYS if key.name not in left_out):
        line = RuleLine(key, written.get(key.name) or defaults[key.name], defaults[key.name])
        found.setdefault(key.section, []).append(line)
    return list(found.items())


def choice_words(key: Key) -> list[tuple[str, str]]:
    """The choices of a key, each with what it means."""
    return [(choice, _meant(choice, meaning)) for choice, meaning in key.meanings.items()]


def _meant(choice: str, meaning: str) -> str:
    return gettext("%(choice)s: %(meaning)s") % {"choice": choice.replace("_", " "), "meaning": meaning}


def fee_reason_field() -> forms.CharField:
    """Why the pot's fee changes that a team has paid."""
    return forms.CharField(
        label=gettext_lazy("Why the big fish pot’s fee changes"),
        required=False,
        max_length=300,
        help_text=gettext_lazy("Needed once a team has paid it. The money page then shows who owes."),
    )


@dataclass(frozen=True)
class FoldedSection:
    """Rules of a section that fold away: how many differ from their defaults, and whether a fault keeps it open."""

    name: str
    fields: list[forms.BoundField]
    changed: int
    open: bool


class RulesForm(ServiceForm):
    """Every key of the rule sheet; a blank one means its default."""

    def __init__(
        self,
        *args: Any,
        written: Mapping[str, str],
        unit: str,
        pot_is_paid: bool = False,
        left_out: Collection[str] = (),
        **kwargs: Any,
    ):
        super().__init__(*args, **kwargs)
        if pot_is_paid:
            self.fields["fee_reason"] = fee_reason_field()
        self._sections = sections(written, unit, left_out)
        for _, lines in self._sections:
            for line in lines:
                self.fields[line.key.name] = rule_field(line, unit)

    def first(self) -> list[forms.BoundField]:
        """The ten that nearly every club sets."""
        return [self[name] for name in FIRST]

    def folded(self) -> list[FoldedSection]:
        """All other rules, section by section."""
        found: dict[str, list[RuleLine]] = {}
        for section, lines in self._sections:
            found[section] = [line for line in lines if line.key.name not in FIRST]
        return [
            FoldedSection(
                section,
                [self[line.key.name] for line in lines],
                sum(line.changed for line in lines),
                any(line.key.name in self.errors for line in lines),
            )
            for section, lines in found.items()
            if lines
        ]


def _reads(key: Key, after: str) -> Callable[[str], str]:
    """How what is typed for a key becomes what the rule sheet's reader reads."""
    by_kind = {"money": typed.money, "percent": typed.percent, "choices": typed.ties}
    if after == "min":
        return typed.minutes
    return by_kind.get(key.kind, lambda text: typed.without_unit(text, after.strip("°")))


def rule_field(line: RuleLine, unit: str) -> forms.Field:
    """One rule to write: read as people type it, its meaning and default beside it."""
    key = line.key
    common: dict[str, Any] = {"label": key.label, "required": False, "initial": line.written}
    default = gettext("Default %(default)s.")
    help_text = f"{key.meaning} {default % {'default': line.default}}"
    if key.kind == "choice":
        words = default % {"default": line.default.replace("_", " ")}
        return forms.ChoiceField(choices=choice_words(key), widget=forms.RadioSelect, help_text=words, **common)
    if key.kind == "yes/no":
        return forms.ChoiceField(
            choices=[("yes", gettext("yes")), ("no", gettext("no"))],
            widget=forms.RadioSelect,
            help_text=help_text,
            **common,
        )
    if key.kind == "choices":
        among = gettext("To choose from: %(choices)s.") % {"choices": ", ".join(key.choices)}
        help_text = f"{key.meaning} {among} {default % {'default': line.default}}"
    attrs = {"inputmode": "decimal"} if key.kind in SHORT and not key.optional and unit != "lb-oz" else {}
    size = {"class": "short"} if key.kind in SHORT else {}
    after = word(unit) if key.kind.startswith("weight") else "%" if key.kind == "percent" else UNITS.get(key.name, "")
    field = TypedField(
        typed=_reads(key, after),
        max_length=200,
        help_text=help_text,
        widget=forms.TextInput(attrs=attrs | size),
        **common,
    )
    if after:
        field.unit = gettext(after) if key.name in UNITS else after  # type: ignore[attr-defined]
    return field
