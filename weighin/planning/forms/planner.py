"""The sentence with blanks: read with the units people write, and worked out."""

import json
from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode

from django import forms
from django.utils.translation import gettext

from weighin.events.domain.calendar import read_clock, write_clock
from weighin.livewell import transfer
from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.oxygen import MOST_PERCENT, saturation_mg_l
from weighin.livewell.pressure import at_elevation_mmhg
from weighin.livewell.temperature import warming
from weighin.livewell.temperature.cooling import STRICTEST_STEP_C
from weighin.planning.domain.blanks import BLANKS, CHOICES, FILLED, GAINING, WARMING
from weighin.planning.domain.limits import passed, within
from weighin.planning.domain.plan import Answer, work_out
from weighin.planning.domain.quantities import FISH, TEMPERATURE, US, VOLUME, Written, read, rewritten, shown
from weighin.planning.domain.question import DoNotHold, Question
from weighin.planning.domain.species import CRAPPIE
from weighin.planning.domain.species import FISH as SPECIES
from weighin.rules.faults import Wrong
from weighin.ui.forms.fields import ClockInput
from weighin.ui.forms.service import sentence
from weighin.ui.parsing import typed

LONGEST = 40
# What stands after a blank of the sentence, on the same line with it.
AFTER = {
    **dict.fromkeys(("aboard", "lake", "pump", "lid", "warm_minutes", "gain_minutes"), ","),
    **dict.fromkeys(("air", "change", "warm_air", "gain_water", "cylinder"), "."),
}
DEFAULTS = {
    **{name: blank.default for name, blank in BLANKS.items()},
    **{name: next(iter(choices)) for name, (_, choices) in CHOICES.items()},
    "filled": FILLED,
}


class PlannerForm(forms.Form):
    """``given`` is what somebody wrote, ``first`` what is known otherwise (an event's water), before the defaults.

    ``units`` is the system the page is written in. Unless somebody has ``chosen`` it, a temperature that was
    given must say its own unit. ``step_c`` is the most the well may be below the lake. Where the lake is too warm to
    hold fish there is no answer and ``refused`` says why.
    """

    use_required_attribute = False
    answer: Answer | None = None
    refused: DoNotHold | None = None

    def __init__(
        self,
        given: Mapping[str, str],
        *,
        first: Mapping[str, str] | None = None,
        units: str = US,
        chosen: bool = True,
        step_c: float = STRICTEST_STEP_C,
    ):
        self.units, self.chosen, self.step_c = units, chosen, step_c
        known = {**DEFAULTS, **(first or {})}
        if not (given["each"] if "each" in given else known["each"]).strip():
            kind = SPECIES.get(given.get("kind") or known["kind"], CRAPPIE)
            given, known = {name: text for name, text in given.items() if name != "each"}, {**known, "each": kind.each}
        super().__init__({n: given[n] if n in given else self._in_units(n, value) for n, value in known.items()})
        self.given = given
        self.written: dict[str, Written] = {}
        for name, blank in BLANKS.items():
            attrs = {
                "autocomplete": "off",
                "inputmode": "numeric" if blank.whole else "decimal",
                "size": str(blank.size),
                "class": "write",
            }
            slide = blank.slide(self.units)
            if slide:
                attrs["data-slide"] = " ".join(f"{end:g}" for end in slide)
            self.fields[name] = forms.CharField(
                label=str(blank.label), required=blank.required, max_length=LONGEST, widget=forms.TextInput(attrs)
            )
            self.fields[name].unit = blank.unit(self.units)  # type: ignore[attr-defined]
        for name, (label, choices) in CHOICES.items():
            self.fields[name] = forms.ChoiceField(
                label=str(label),
                choices=list(choices.items()),
                error_messages={
                    "invalid_choice": gettext("Choose one of: %(values)s.")
                    % {"values": ", ".join(map(str, choices.values()))}
                },
            )
        usual = {name: self._in_units("each", kind.each) for name, kind in SPECIES.items()}
        self.fields["kind"].widget.attrs["data-each"] = json.dumps(usual)
        self.fields["filled"] = forms.CharField(
            label=gettext("When the livewell is filled"),
            max_length=LONGEST,
            widget=ClockInput({"size": "8", "class": "write"}),
        )
        for name, field in self.fields.items():
            field.template_name = "planning/planner/blank.html"  # type: ignore[attr-defined]
            field.after = AFTER.get(name, "")  # type: ignore[attr-defined]

    def _in_units(self, name: str, text: str) -> str:
        """A first value in the units of the page."""
        if name not in BLANKS or not text:
            return text
        try:
            quantity = BLANKS[name].quantity
            return rewritten(read(text, quantity, self.units), quantity, self.units)
        except ValueError:
            return text

    def clean_filled(self) -> str:
        try:
            return write_clock(read_clock(typed.clock(self.cleaned_data["filled"])).replace(second=0))
        except Wrong as problem:
            raise forms.ValidationError(sentence(problem.said.in_labels({}).shown())) from None

    def clean(self) -> None:
        for name, blank in BLANKS.items():
            text = self.cleaned_data.get(name)
            if text:
                try:
                    self.written[name] = blank.read(text, self.units, self.chosen or name not in self.given)
                except ValueError as problem:
                    self.add_error(name, str(problem))
        if not self.errors:
            self._read_groups()
        if not self.errors:
            self._fit_together()
        if not self.errors:
            self._work_out()

    def _work_out(self) -> None:
        """The answer. Where nobody has chosen them yet, the water is changed and the lid opened as the limits need."""
        try:
            self.answer = work_out(self._question())
        except DoNotHold as problem:
            self.refused = problem
        except OutOfRange as problem:
            self._put(problem)
        if self.answer is None or {"change", "lid", "fish"} & set(self.given) or not passed(self.answer):
            return
        better = within(self.answer.question)
        if better is not None:
            self.cleaned_data.update((name, said) for name, said in better.blanks.items() if name in ("change", "lid"))
            self.answer = work_out(self._question())

    def written_again(self, system: str) -> dict[str, str]:
        """Every value as the page shows it in ``system``; of a valid form."""
        figures = {n: rewritten(w, BLANKS[n].quantity, system) for n, w in self.written.items()}
        return {name: figures.get(name, str(self.cleaned_data.get(name, ""))) for name in self.fields}

    def query(self, system: str, **changed: str) -> str:
        """The address's query of this plan with some values changed; of a valid form."""
        values = {**self.written_again(system), **changed}
        return urlencode({"units": system, **{name: value for name, value in values.items() if value}})

    def _si(self, name: str) -> float | None:
        written = self.written.get(name)
        return None if written is None else written.si

    def _put(self, problem: OutOfRange) -> None:
        """A complaint of the models at the blank it is about."""
        field = next((name for name, blank in BLANKS.items() if problem.name in blank.names), None)
        self.add_error(field, str(problem))

    def _read_groups(self) -> None:
        """Two readings and the time between them: all of them or none."""
        for group in (WARMING, GAINING):
            given = [name for name in group if name in self.written]
            if given and len(given) < len(group):
                for name in group:
                    if name not in given:
                        self.add_error(name, gettext("Write this too, or leave all four blank."))
        if self.errors:
            return
        try:
            self.cleaned_data["warming_per_h"] = self._warming()
            self.cleaned_data["transfer_per_h"] = self._transfer()
        except OutOfRange as problem:
            group = WARMING if "warming_per_h" not in self.cleaned_data else GAINING
            self.add_error(_READINGS.get((group[0], problem.name), group[1]), str(problem))

    def _warming(self) -> Estimate:
        start, end, minutes, air = (self._si(name) for name in WARMING)
        if start is None or end is None or minutes is None or air is None:
            return warming.UNMEASURED_PER_H
        found = warming.coefficient_from_readings(start_c=start, end_c=end, outside_c=air, minutes=minutes)
        if found.high > warming.FASTEST_PER_H:
            raise OutOfRange(
                "end_c", gettext("No livewell warms so fast: check the readings and the time between them.")
            )
        return found

    def _transfer(self) -> Estimate | None:
        start, end, minutes, water = (self._si(name) for name in GAINING)
        if start is None or end is None or minutes is None or water is None:
            return None
        pressure = self._pressure()
        for name, reading in (("start_mg_l", start), ("end_mg_l", end)):
            self._believe(name, reading, water, pressure)
        found = transfer.coefficient_from_readings(
            start_mg_l=start,
            end_mg_l=end,
            saturation_mg_l=saturation_mg_l(water, pressure),
            minutes=minutes,
            temperature_c=water,
        )
        if found.high > 100:
            raise OutOfRange("end_mg_l", gettext("No pump is so fast: check the readings and the time between them."))
        return found

    def _fit_together(self) -> None:
        """What no blank can see alone."""
        well, fish, each, have = (self._si(name) for name in ("well", "fish", "each", "have"))
        assert well is not None and fish is not None and each is not None
        if fish * each / 1000 > well:
            heavy = shown(fish * each, FISH, self.units, 1)
            self.add_error(
                "fish",
                gettext("%(heavy)s of fish need more water than %(shown)s.")
                % {"heavy": heavy, "shown": shown(well, VOLUME, self.units, 1)},
            )
        if have is not None and have > well:
            self.add_error(
                "have",
                gettext("%(ice)s of ice are heavier than the %(water)s of water: check both.")
                % {"ice": self.written["have"], "water": self.written["well"]},
            )
        oxygen, lake = self._si("oxygen"), self._si("lake")
        if oxygen is not None and lake is not None:
            try:
                self._believe("oxygen_mg_l", oxygen, lake, self._pressure())
            except OutOfRange as problem:
                self.add_error("oxygen", str(problem))

    def _believe(self, name: str, reading: float, water_c: float, pressure_mmhg: float) -> None:
        """Refuses a reading above 200 % of saturation."""
        percent = 100 * reading / saturation_mg_l(water_c, pressure_mmhg)
        if percent > MOST_PERCENT:
            warmth = shown(water_c, TEMPERATURE, self.units, 1)
            raise OutOfRange(
                name,
                gettext(
                    "%(reading)s mg/L is %(percent)s %% of what water of %(warmth)s holds in air; above %(most_percent)s %% check "
                    "the meter, its unit and the temperature."
                )
                % {
                    "reading": f"{reading:g}",
                    "percent": f"{percent:.0f}",
                    "warmth": warmth,
                    "most_percent": f"{MOST_PERCENT:.0f}",
                },
            )

    def _pressure(self) -> float:
        return at_elevation_mmhg(self._si("elevation") or 0.0)

    def _question(self) -> Question:
        data = self.cleaned_data
        si: dict[str, Any] = {name: written.si for name, written in self.written.items()}
        clock = read_clock(data["filled"])
        return Question(
            volume_l=si["well"],
            lake_c=si["lake"],
            elevation_m=si["elevation"],
            fish=int(si["fish"]),
            mass_g=si["each"],
            hours=si["hours"],
            air_c=si["air"],
            start_minute=clock.hour * 60 + clock.minute,
            species=SPECIES[data["kind"]].curve,
            all_day=data["aboard"] == "start",
            ice=data["ice"] == "yes",
            ice_aboard_kg=si.get("have") if data["ice"] == "yes" else None,
            on_timer=data["pump"] == "timer",
            vented=data["lid"] == "open",
            flow_l_per_h=si["flow"],
            change_every_h=None if data["change"] == "never" else float(data["change"]),
            warming_per_h=data["warming_per_h"],
            transfer_per_h=data["transfer_per_h"],
            start_mg_l=si.get("oxygen"),
            oxygen_l_per_min=si.get("cylinder", 0.0),
            step_c=self.step_c,
        )


_READINGS = {
    ("warm_from", "start_c"): "warm_from",
    ("warm_from", "outside_c"): "warm_air",
    ("gain_from", "start_mg_l"): "gain_from",
}
