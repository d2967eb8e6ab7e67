"""The members of a club, and its security log, as ruled tables."""

from collections.abc import Container
from datetime import datetime
from typing import Any

import django_tables2 as tables
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.accounts.models import SecurityEntry
from weighin.clubs.models import Membership
from weighin.ui import figures
from weighin.ui.nouns import recorder
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable


class MembersTable(RuledTable):
    """Who is in the club and as what."""

    name = NameColumn(
        accessor="user", verbose_name=gettext_lazy("Name"), order_by=("user__first_name", "user__username")
    )
    username = tables.Column(accessor="user__username", verbose_name=gettext_lazy("User name"))
    role = tables.Column(accessor="get_role_display", verbose_name=gettext_lazy("Role"), order_by="role")
    last = tables.Column(
        accessor="user__last_login",
        verbose_name=gettext_lazy("Last sign-in"),
        default=gettext_lazy("not yet"),
    )
    change = tables.Column(
        empty_values=(),
        verbose_name="",
        orderable=False,
        linkify=("clubs:member", {"club_slug": tables.A("club__slug"), "member_pk": tables.A("pk")}),
        attrs={"td": {"class": "do"}},
    )

    caption = gettext_lazy("Members of the club")
    named_by = "name"

    class Meta:
        order_by_field = "sort"
        empty_text = gettext_lazy("Nobody is in this club yet.")

    def render_last(self, value: datetime) -> str:
        return figures.dated(timezone.localtime(value))

    def render_change(self, record: Membership) -> SafeString:
        return format_html('{}<span class="for-ears"> {}</span>', gettext("Edit"), record.user)


class SecurityTable(RuledTable):
    """The security log of a club; people of other clubs stay without a name."""

    at = tables.Column(accessor="last_at", verbose_name=gettext_lazy("When"))
    kind = NameColumn(verbose_name=gettext_lazy("What"))
    actor = tables.Column(verbose_name=gettext_lazy("Who"), empty_values=())
    address = tables.Column(verbose_name=gettext_lazy("From"))
    times = FigureColumn(verbose_name=gettext_lazy("Times"))
    about = tables.Column(verbose_name=gettext_lazy("About"), orderable=False)

    caption = gettext_lazy("Security log of the club")
    named_by = "kind"

    class Meta:
        order_by_field = "sort"
        empty_text = gettext_lazy("Nothing yet. Sign-ins, refusals and changes of members come here.")

    def __init__(self, *args: Any, people: Container[int], **kwargs: Any):
        super().__init__(*args, **kwargs)
        self.people = people

    def render_at(self, value: datetime) -> str:
        return figures.moment(timezone.localtime(value))

    def render_kind(self, value: str) -> str:
        return str(SecurityEntry.Kind(value).label) if value in SecurityEntry.Kind.values else value

    def render_actor(self, record: SecurityEntry) -> str:
        if record.person_id is None:
            return recorder(record.actor) or gettext("an unknown user name")
        return record.actor if record.person_id in self.people else gettext("somebody of another club")

    def render_address(self, value: str) -> str:
        return value or gettext("this machine")
