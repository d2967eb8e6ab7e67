"""The members of a club as a ruled table."""

import django_tables2 as tables
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.clubs.models import Membership
from weighin.ui.tables import NameColumn, RuledTable


class MembersTable(RuledTable):
    """Who is in the club and as what."""

    name = NameColumn(
        accessor="user", verbose_name=gettext_lazy("Name"), order_by=("user__first_name", "user__username")
    )
    username = tables.Column(accessor="user__username", verbose_name=gettext_lazy("User name"))
    role = tables.Column(accessor="get_role_display", verbose_name=gettext_lazy("Role"), order_by="role")
    last = tables.DateTimeColumn(
        accessor="user__last_login",
        verbose_name=gettext_lazy("Last sign-in"),
        format="j F Y",
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

    def render_change(self, record: Membership) -> SafeString:
        return format_html('{}<span class="for-ears"> {}</span>', gettext("Change"), record.user)
