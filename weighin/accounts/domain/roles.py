"""Who can do what: the one Role x Can table."""

from django.db import models
from django.utils.translation import gettext_lazy


class Role(models.TextChoices):
    """What a member is in a club."""

    DIRECTOR = "director", gettext_lazy("Director")
    DESK_OFFICIAL = "desk_official", gettext_lazy("Desk official")
    WEIGH_OFFICIAL = "weigh_official", gettext_lazy("Weigh official")
    FISH_CARE_OFFICIAL = "fish_care_official", gettext_lazy("Fish-care official")
    CLUB_REVIEWER = "club_reviewer", gettext_lazy("Club reviewer")


class Can(models.TextChoices):
    """What a page or an act asks for."""

    VIEW_EVENT = "view_event", gettext_lazy("see events, slips, standings and fish care")
    VIEW_SEASON = "view_season", gettext_lazy("see season points and the mortality summary")
    VIEW_HISTORY = "view_history", gettext_lazy("read the history")
    EXPORT = "export", gettext_lazy("export files")
    RECORD_SLIP = "record_slip", gettext_lazy("add weigh slips")
    CORRECT_SLIP = "correct_slip", gettext_lazy("correct and void slips, with a reason")
    RECORD_CARE = "record_care", gettext_lazy("add care notes")
    MANAGE_TEAMS = "manage_teams", gettext_lazy("add and edit teams")
    TAKE_MONEY = "take_money", gettext_lazy("add payments, see what is owed and pay prizes out")
    HEAR_PROTESTS = "hear_protests", gettext_lazy("add protests, and what was ruled on them")
    SEE_CONTACTS = "see_contacts", gettext_lazy("see phone numbers and emergency contacts")
    MANAGE_EVENT = "manage_event", gettext_lazy("add events, edit days and rules, settle and close")
    IMPORT_EVENT = "import_event", gettext_lazy("import event workbooks")
    PUBLISH = "publish", gettext_lazy("publish results")
    MANAGE_CLUB = "manage_club", gettext_lazy("edit the club, its seasons, waters and members")


_EVERY_MEMBER = {Can.VIEW_EVENT, Can.VIEW_SEASON, Can.EXPORT}

TABLE: dict[Role, frozenset[Can]] = {
    Role.DIRECTOR: frozenset(Can),
    Role.DESK_OFFICIAL: frozenset(
        _EVERY_MEMBER | {Can.MANAGE_TEAMS, Can.TAKE_MONEY, Can.HEAR_PROTESTS, Can.SEE_CONTACTS}
    ),
    Role.WEIGH_OFFICIAL: frozenset(_EVERY_MEMBER | {Can.RECORD_SLIP, Can.CORRECT_SLIP}),
    Role.FISH_CARE_OFFICIAL: frozenset(_EVERY_MEMBER | {Can.RECORD_CARE}),
    Role.CLUB_REVIEWER: frozenset(_EVERY_MEMBER | {Can.VIEW_HISTORY}),
}


def allowed(role: str, can: Can) -> bool:
    """Whether a member in ``role`` can do ``can``; unknown roles can do nothing."""
    return role in Role.values and can in TABLE[Role(role)]
