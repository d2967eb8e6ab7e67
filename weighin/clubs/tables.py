"""The members of a club as a ruled table."""

import django_tables2 as tables
from django.utils.html import format_html
from django.utils.safestring import SafeString

from weighin.clubs.models import Membership
from weighin.ui.tables import NameColumn, RuledTable


class MembersTable(RuledTable):
    """Who is in the club and as what."""

    name = NameColumn(accessor="user", verbose_name="Name", order_by=("user__first_name", "user__username"))
    username = tables.Column(accessor="user__username", verbose_name="User name")
    role = tables.Column(accessor="get_role_display", order_by="role")
    last = tables.DateTimeColumn(
        accessor="user__last_login", verbose_name="Last sign-in", format="j F Y", default="not yet"
    )
    change = tables.Column(
        empty_values=(),
        verbose_name="",
        orderable=False,
        linkify=("clubs:member", {"club_slug": tables.A("club__slug"), "member_pk": tables.A("pk")}),
        attrs={"td": {"class": "do"}},
    )

    caption = "Members of the club"
    named_by = "name"

    class Meta:
        order_by_field = "sort"
        empty_text = "Nobody is in this club yet."

    def render_change(self, record: Membership) -> SafeString:
        return format_html('Change<span class="for-ears"> {}</span>', record.user)
