"""The care record in rows: a team of the season each, and a team's days."""

from typing import Any

from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.care.queries.season import CareRecord, TeamDay, TeamRecord
from weighin.care.tables.marks import ATTRS, PassedColumn, mark_column
from weighin.care.tables.season_words import checks_said, live_range, live_share, time_range, time_said
from weighin.ui import figures
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable, TotalColumn, ordered_by
from weighin.ui.templatetags.ui import counted, percent


class TeamsTable(RuledTable):
    """The season's teams with fish by share adjusted for small numbers, then those without."""

    place = FigureColumn(verbose_name=gettext_lazy("Place"), accessor="standing__place")
    team = NameColumn(verbose_name=gettext_lazy("Team"))
    shrunken = TotalColumn(
        verbose_name=gettext_lazy("Dead, adjusted for small numbers"), accessor="standing__shrunk__rate"
    )
    alive = FigureColumn(verbose_name=gettext_lazy("Alive by release"), empty_values=())
    fish = FigureColumn(verbose_name=gettext_lazy("Fish"))
    held = FigureColumn(verbose_name=gettext_lazy("Held, mean"), empty_values=())
    in_bag = FigureColumn(verbose_name=gettext_lazy("In the bag, mean"), empty_values=())
    checks = FigureColumn(verbose_name=gettext_lazy("Checks"), orderable=False)

    caption = gettext_lazy("The season’s care record by team")
    named_by = "team"

    class Meta:
        order_by_field = "sort"
        empty_text = gettext_lazy("No team has a slip in this season yet.")

    def __init__(self, record: CareRecord, **kwargs: Any):
        super().__init__(sorted(record.teams, key=_in_order), attrs=ATTRS, **kwargs)
        self.where = (record.season.club.slug, record.season.slug)

    def render_team(self, record: TeamRecord) -> SafeString:
        url = reverse("care:care_team", args=[*self.where, record.entry_pk])
        named = record.standing is not None and record.standing.honoured
        honour = format_html('<span class="small">{}</span>', gettext("named")) if named else ""
        return format_html('<a href="{}">{}</a>{}', url, record.team, honour)

    def render_shrunken(self, value: float) -> str:
        return percent(value)

    def render_alive(self, record: TeamRecord) -> SafeString:
        return _with_range(live_share(record.rate), live_range(record.rate))

    order_alive = ordered_by(lambda team: 1 - team.rate.rate if team.rate else -1.0)

    def render_fish(self, record: TeamRecord) -> SafeString:
        return _with_range(str(record.fish), counted(record.events, "event"))

    def render_held(self, record: TeamRecord) -> SafeString:
        return _with_range(time_said(record.held, record.held_is_upper_bound), time_range(record.held))

    order_held = ordered_by(lambda team: team.held.mean if team.held else -1.0)

    def render_in_bag(self, record: TeamRecord) -> SafeString:
        return _with_range(time_said(record.in_bag), time_range(record.in_bag))

    order_in_bag = ordered_by(lambda team: team.in_bag.mean if team.in_bag else -1.0)

    def render_checks(self, record: TeamRecord) -> str:
        return checks_said(record)


def _in_order(team: TeamRecord) -> tuple[bool, float, int, str]:
    standing = team.standing
    return standing is None, standing.shrunk.rate if standing else 0.0, -team.fish, team.team.casefold()


class DaysTable(RuledTable):
    """A team's days."""

    event = NameColumn(verbose_name=gettext_lazy("Event"))
    day = FigureColumn(verbose_name=gettext_lazy("Day"))
    fish = FigureColumn(verbose_name=gettext_lazy("Fish"))
    lost = FigureColumn(verbose_name=gettext_lazy("Dead by release"))
    pump = mark_column("pump")
    thermometer = mark_column("thermometer")
    ice = mark_column("ice")
    on_board = mark_column("on_board")
    held = mark_column("held")
    bag = mark_column("bag")
    cooling = mark_column("cooling")
    oxygen = mark_column("oxygen")
    passed = PassedColumn(verbose_name=gettext_lazy("Passed"), empty_values=())

    caption = gettext_lazy("The team’s days")
    named_by = "event"

    class Meta:
        orderable = False
        empty_text = gettext_lazy("No day of this team has a slip that counts.")

    def __init__(self, team: TeamRecord, **kwargs: Any):
        super().__init__(list(team.days), attrs=ATTRS, **kwargs)

    def render_event(self, record: TeamDay) -> SafeString:
        url = reverse("care:notes", args=[record.event.slug])
        date = figures.short_day(record.event.date)
        more = (
            gettext("%(date)s; %(elsewhere)s fish in another boat’s livewell")
            % {"date": date, "elsewhere": record.elsewhere}
            if record.elsewhere
            else date
        )
        return format_html('<a href="{}">{}</a><span class="small quiet">{}</span>', url, record.event.name, more)


def _with_range(figure: str, reach: str) -> SafeString:
    return (
        format_html('{}<span class="small quiet reach">{}</span>', figure, reach) if figure else format_html("{}", "")
    )
