"""One event's dead fish for its pages: the finding in words, each rate with its denominator, what is not known."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Any
from zoneinfo import ZoneInfo

from django.db.models import prefetch_related_objects
from django.utils import timezone
from django.utils.translation import gettext, ngettext

from weighin.events.models import Event
from weighin.events.queries.events import rules_of
from weighin.holding.domain.study import HoldingStudy, holding_study
from weighin.mortality.domain.lake import Lake, lake_of, unit_of
from weighin.mortality.domain.words import (
    against_stop,
    clusters_said,
    counted,
    dead_of,
    figures,
    finding,
    limits,
    listed,
    number,
    percent,
    range_said,
    seen,
    some_of,
)
from weighin.mortality.pages.caveats import event_caveats
from weighin.mortality.pages.figures import rate_strip, watch_figure
from weighin.mortality.queries.catches import Catch, Livewell, catch_of, livewells, parted, with_releases
from weighin.mortality.queries.event import Mortality, mortality_of
from weighin.mortality.queries.missing import Missing, missing_of, missing_said
from weighin.mortality.queries.stop_level import StopLevel, stop_level
from weighin.roster.queries import entries_at
from weighin.slips.queries.slips import current_slips
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.delayed import compound
from weighin.survival.estimates import Estimate
from weighin.tanks.queries.at_release import batches_of
from weighin.ui.figures import day as day_said


@dataclass(frozen=True)
class Line:
    """A rate in a table: what it is, of which fish, the count, the rate and its range, all as written."""

    name: str
    of_which: str
    count: str
    rate: str
    limits: str

    @classmethod
    def of(cls, name: str, of_which: str, rate: Clustered) -> "Line":
        return cls(name, of_which, some_of(rate.dead, rate.n), seen(rate), limits(rate))


@dataclass(frozen=True)
class EventReport:
    """An event's mortality worked out for showing. Rates with limits are None where there are no fish to divide by."""

    event: Event
    stop: float
    species: str
    found: Mortality
    wells: Sequence[Livewell]
    study: HoldingStudy | None
    lake: Lake | None
    missing: Missing
    days: Sequence[tuple[int, Clustered]]
    is_over: bool
    stop_level: StopLevel | None

    @cached_property
    def initial(self) -> Clustered | None:
        """Dead by release of all fish brought to the scales."""
        return self._rate([well.dead for well in self.wells], [well.fish for well in self.wells])

    @cached_property
    def total(self) -> Estimate | None:
        """Initial and delayed deaths together; None without a holding study that can be used."""
        if self.initial is None or self.study is None or self.study.delayed is None:
            return None
        return compound(self.initial, self.study.delayed)

    @property
    def title(self) -> str:
        """The finding in a sentence."""
        if self.initial is None:
            return (
                gettext("No fish was brought to the scales.")
                if self.is_over
                else gettext("No fish is at the scales yet.")
            )
        return f"{finding(self.initial, self.found.dead, self.found.presented)}."

    @property
    def figure(self) -> str:
        """The one big figure, without its sign: the rate seen or, with none dead, the upper limit."""
        if self.initial is None:
            return ""
        return figures(self.initial.rate if self.found.dead else self.initial.high)

    @property
    def range(self) -> str:
        """The sentence after it: what the count leaves open."""
        if self.initial is None:
            return ""
        return range_said(self.initial, self.found.dead, self.found.presented, self.found.clusters)

    @property
    def against_stop(self) -> str:
        """The one verdict: the rule that allows for looking often where the event has it, else the range's."""
        if self.initial is None:
            return ""
        return self.stop_level.title if self.stop_level else against_stop(self.initial, self.stop)

    @property
    def clusters(self) -> str:
        found = self.found
        return clusters_said(found.presented, found.clusters, found.design_effect, found.dead)

    @property
    def spread(self) -> str:
        """How many livewells lost how many fish."""
        lost = Counter(well.named for well in self.wells)
        if len(self.wells) < 2 or self.found.dead == 0:
            return ""
        parts = [
            (gettext("%(wells)s lost %(dead)s") if dead else gettext("%(wells)s lost none"))
            % {"wells": number(wells), "dead": number(dead)}
            for dead, wells in sorted(lost.items())
        ]
        shared = round(self.found.dead - sum(well.named for well in self.wells))
        said = gettext("Of %(wells)s livewells %(parts)s.") % {"wells": number(len(self.wells)), "parts": listed(parts)}
        if shared:
            more = gettext("%(fish)s more died in batches of several boats.")
            said += " " + more % {"fish": counted(shared, "fish")}
        return said

    @property
    def lines(self) -> list[Line]:
        """Every rate that can be said of fish seen at the event."""
        found, wells = self.found, self.wells
        fish, dead = [well.fish for well in wells], [well.dead for well in wells]
        at_table = [well.dead_at_table for well in wells]
        for_the_lake = [well.fish - well.kept for well in wells]
        removed = [well.dead + well.kept for well in wells]
        lines = [
            self._line(
                gettext("Dead by release"), gettext("all fish brought to the scales (initial mortality)"), dead, fish
            ),
            self._line(
                gettext("Dead at the table"),
                gettext("all fish brought to the scales, those that died later left out"),
                at_table,
                fish,
            ),
            self._line(
                gettext("Dead, of fish meant for the lake"),
                gettext("fish brought to the scales less %(kept)s kept") % {"kept": f"{found.kept:,}"}
                if found.kept
                else gettext("all fish: none was kept"),
                dead,
                for_the_lake,
            ),
            self._line(
                gettext("Taken out of the lake"),
                gettext("dead or kept, of all fish brought to the scales"),
                removed,
                fish,
            ),
        ]
        return [line for line in lines if line is not None]

    @property
    def day_lines(self) -> list[Line]:
        """The days one by one, when there were several with fish."""
        if len(self.days) < 2:
            return []
        written = {day.number: day.date for day in self.event.event_days.all()}
        return [
            Line.of(
                gettext("Day %(day)s") % {"day": day},
                day_said(written[day]) if day in written else "",
                rate,
            )
            for day, rate in self.days
        ]

    @property
    def later(self) -> list[Line]:
        """Delayed and total mortality: from the event's own study, or not known."""
        unknown = gettext("no fish of this event were held back") if self.study is None else self.study.unusable
        if self.study is None or self.study.delayed is None:
            return [
                Line(
                    gettext("Died after release"),
                    gettext("not known: %(unknown)s") % {"unknown": unknown},
                    "",
                    gettext("not known"),
                    "",
                ),
                Line(
                    gettext("Before and after release together"),
                    gettext("not known without the line above"),
                    "",
                    gettext("not known"),
                    "",
                ),
            ]
        study, delayed = self.study, self.study.delayed
        count = some_of(study.tournament.dead, study.tournament.fish)
        if study.basis == "reference":
            of_which = gettext("fish held, beside %(dead)s of %(fish)s reference fish (Abbott’s formula)") % {
                "dead": study.reference.dead,
                "fish": study.reference.fish,
            }
        else:
            of_which = gettext("fish held, without reference fish: deaths from being held are in it")
        no_increase = delayed.rate <= 0.0 and study.basis == "reference"
        lines = [
            Line(
                gettext("Died after release"),
                of_which,
                count,
                gettext("no increase shown") if no_increase else seen(delayed),
                _reach(delayed),
            )
        ]
        if self.total is not None:
            lines.append(
                Line(
                    gettext("Before and after release together"),
                    gettext(
                        "all fish brought to the scales, %(count)s held standing for those released: 1 − (1 − before)(1 − after)"
                    )
                    % {"count": count},
                    some_of(self.found.dead, self.found.presented),
                    seen(self.total),
                    _reach(self.total),
                )
            )
        return lines

    @property
    def study_said(self) -> str:
        """The holding study in a sentence: fish, hours, what it rests on and what is left out of it."""
        if self.study is None:
            return ""
        study = self.study
        held = (
            gettext("%(fish)s of the event were held for %(hours)s hours in %(pens)s.")
            if study.hours
            else gettext("%(fish)s of the event were held in %(pens)s.")
        )
        said = held % {
            "fish": counted(study.tournament.fish, "fish"),
            "hours": listed(study.hours, either=True),
            "pens": counted(study.tournament.pens, "pen"),
        }
        missing = study.tournament.missing + study.reference.missing
        if missing:
            said += " " + ngettext(
                "%(missing)s more went missing from the pens and is left out.",
                "%(missing)s more went missing from the pens and are left out.",
                missing,
            ) % {"missing": number(missing).capitalize()}
        if study.basis == "reference":
            said += " " + gettext("Fish of a pen are taken to live or die together, as those of a livewell are.")
            if study.reference_species and set(study.reference_species) != set(study.species):
                others = gettext(
                    "The reference fish were %(reference)s, the others %(others)s: read the difference with care."
                )
                said += " " + others % {
                    "reference": listed(study.reference_species),
                    "others": listed(study.species) or gettext("not named"),
                }
        elif study.basis is None:
            said += f" {study.unusable}."
        return f"{said} {study.few_pens}".strip()

    @property
    def missing_said(self) -> list[tuple[str, str]]:
        return missing_said(self.missing, self.is_over)

    @property
    def lake_said(self) -> str:
        return self.lake.said(unit_of([self.lake])) if self.lake else ""

    def _line(self, name: str, of_which: str, dead: Sequence[float], fish: Sequence[int]) -> Line | None:
        rate = self._rate(dead, fish)
        return None if rate is None else Line.of(name, of_which, rate)

    def _rate(self, dead: Sequence[float], fish: Sequence[int]) -> Clustered | None:
        return clustered(dead, fish) if sum(fish) else None


def event_report(event: Event, as_of: datetime | None = None) -> EventReport:
    """The panel of an event, in six queries whatever its size; with ``as_of`` by what was known then."""
    prefetch_related_objects([event], "event_days")
    catches = [catch_of(slip) for slip in current_slips(event, as_of)]
    counting, waiting = parted(catches)
    counting = with_releases(counting, batches_of([event], as_of).get(event.pk, ()))
    rules = rules_of(event)
    study = holding_study(event.holding_pens.all())
    lake = lake_of(event, (catch.day for catch in counting if catch.fish))
    over = is_over(event)
    return EventReport(
        event=event,
        stop=float(rules.care_stop_percent) / 100,
        species=rules.species,
        found=mortality_of(counting, study, len({(catch.boat, catch.day) for catch in waiting})),
        wells=livewells(counting),
        study=study,
        lake=lake,
        missing=missing_of(
            counting,
            waiting,
            [(entry.boat, entry.status) for entry in entries_at(event, as_of)],
            has_lake=lake is not None,
            has_study=study is not None,
        ),
        days=_by_day(counting),
        is_over=over,
        stop_level=stop_level(event, rules, counting, over),
    )


def panel(event: Event, as_of: datetime | None = None) -> dict[str, Any]:
    """The context of ``mortality/panel.html``, for members' and public pages alike."""
    found = event_report(event, as_of)
    title = f"{dead_of(found.found.dead, found.found.presented)}, {limits(found.initial)}" if found.initial else ""
    return {
        "panel": found,
        "strip": rate_strip(found.initial, title, found.stop).drawn() if found.initial else None,
        "caveats": event_caveats(found.species),
    }


def members_report_context(event: Event) -> dict[str, Any]:
    """``panel`` with the stop level as well, which tells the crew what to do and nobody else."""
    context = panel(event)
    watched: StopLevel | None = context["panel"].stop_level
    figure = watch_figure(watched) if watched else None
    return {**context, "watched": watched, "watch_chart": figure.drawn() if figure else None}


def is_over(event: Event) -> bool:
    """Whether no more slips are to come: closed, or its last day is past where it is held."""
    last = max((day.date for day in event.event_days.all()), default=event.date)
    return event.closed_at is not None or last < timezone.now().astimezone(ZoneInfo(event.time_zone)).date()


def _by_day(catches: Sequence[Catch]) -> list[tuple[int, Clustered]]:
    days = sorted({catch.day for catch in catches if catch.fish})
    rates = []
    for day in days:
        wells = livewells(catch for catch in catches if catch.day == day)
        rates.append((day, clustered([well.dead for well in wells], [well.fish for well in wells])))
    return rates


def _reach(rate: Estimate) -> str:
    """Limits that may begin below zero, where a correction took more than there was."""
    if rate.low <= 0.0:
        return gettext("up to %(high)s") % {"high": percent(max(rate.high, 0.0))}
    return limits(rate)
