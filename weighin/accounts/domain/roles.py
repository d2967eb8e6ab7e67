"""Who can do what: the one Role x Can table."""

from django.db import models


class Role(models.TextChoices):
    """What a member is in a club."""

    DIRECTOR = "director", "Director"
    WEIGH_OFFICIAL = "weigh_official", "Weigh official"
    FISH_CARE_OFFICIAL = "fish_care_official", "Fish-care official"
    CLUB_REVIEWER = "club_reviewer", "Club reviewer"


class Can(models.TextChoices):
    """What a page or an act asks for."""

    VIEW_EVENT = "view_event", "see events, slips, standings and fish care"
    VIEW_SEASON = "view_season", "see season points and the mortality summary"
    VIEW_HISTORY = "view_history", "read the history"
    EXPORT = "export", "take files out"
    RECORD_SLIP = "record_slip", "write weigh slips"
    CORRECT_SLIP = "correct_slip", "correct and void slips, with a reason"
    RECORD_CARE = "record_care", "write care notes"
    MANAGE_TEAMS = "manage_teams", "enter and change teams"
    MANAGE_EVENT = "manage_event", "make events, change days and rules, settle and close"
    IMPORT_EVENT = "import_event", "bring in event workbooks"
    PUBLISH = "publish", "publish results"
    MANAGE_CLUB = "manage_club", "change the club, its seasons, waters and members"


_EVERY_MEMBER = {Can.VIEW_EVENT, Can.VIEW_SEASON, Can.EXPORT}

TABLE: dict[Role, frozenset[Can]] = {
    Role.DIRECTOR: frozenset(Can),
    Role.WEIGH_OFFICIAL: frozenset(_EVERY_MEMBER | {Can.RECORD_SLIP, Can.CORRECT_SLIP}),
    Role.FISH_CARE_OFFICIAL: frozenset(_EVERY_MEMBER | {Can.RECORD_CARE}),
    Role.CLUB_REVIEWER: frozenset(_EVERY_MEMBER | {Can.VIEW_HISTORY}),
}


def allowed(role: str, can: Can) -> bool:
    """Whether a member in ``role`` can do ``can``; unknown roles can do nothing."""
    return role in Role.values and can in TABLE[Role(role)]
