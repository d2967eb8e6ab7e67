"""How databases were laid out when the apps ``scale`` and ``fishcare`` held most of the work, and where each table went."""

from collections.abc import Iterable
from collections.abc import Set as AbstractSet
from enum import Enum

Migration = tuple[str, str]  # app and name, as in django_migrations

# By the app that has them now; what follows the app's name is still the model's
MOVED_TO = {
    "slips": ("scale_weighslip", "scale_paperpad", "scale_papernumber"),
    "checkin": ("scale_checkin", "scale_duenotice"),
    "scales": ("scale_scale", "scale_scalenow", "scale_scalecheck", "scale_scalereading"),
    "line": ("scale_lineword", "scale_lineterms"),
    "stations": ("scale_station",),
    "tanks": (
        "fishcare_tankreading", "fishcare_treatment", "fishcare_release", "fishcare_floaterwalk", "fishcare_keptfish",
        "fishcare_handedbag",
    ),
    "holding": ("fishcare_holdingpen", "fishcare_studypen", "fishcare_pencheck"),
    "care": ("fishcare_carenote", "fishcare_sentnote"),
}  # fmt: skip
MOVED = {table: f"{app}_{table.partition('_')[2]}" for app, tables in MOVED_TO.items() for table in tables}
STAYED = (
    "accounts_user", "accounts_user_groups", "accounts_user_user_permissions", "audit_databaselife",
    "audit_historyentry", "auth_group", "auth_group_permissions", "auth_permission", "clubs_club", "clubs_membership",
    "clubs_season", "clubs_water", "django_content_type", "django_session", "events_event", "events_eventday",
    "events_flight", "events_rulesheet", "mortality_publishedonce", "roster_angler", "roster_entry", "roster_team",
    "standings_holdback", "standings_officialresult",
)  # fmt: skip
TABLES = {table: table for table in STAYED} | MOVED
MIGRATIONS = "django_migrations"
# The last migration of every app of ours: a database without one of them is of a version before
LAST: tuple[Migration, ...] = (
    ("accounts", "0001_initial"),
    ("audit", "0003_database_life"),
    ("clubs", "0002_agency_contact_and_county"),
    ("events", "0002_agency_ramp_and_dead_fish"),
    ("fishcare", "0006_culled_and_depth"),
    ("mortality", "0001_published_once"),
    ("roster", "0001_initial"),
    ("scale", "0008_release_counts_may_be_unknown"),
    ("standings", "0003_what_a_result_stands_on"),
)
OURS = {app for app, _ in LAST}
# Apps that are no more: wherever one has a migration, the layout is the earlier one
ENDED = ("scale", "fishcare")


class Layout(Enum):
    """What a database is to this version of the site."""

    EMPTY = "empty"
    FOREIGN = "foreign"
    EARLIER = "earlier"
    PRESENT = "present"


def layout_of(applied: Iterable[Migration], tables: AbstractSet[str]) -> Layout:
    """The layout of a database by its applied migrations and its tables."""
    apps = {app for app, _ in applied}
    if apps.intersection(ENDED):
        return Layout.EARLIER
    if apps & OURS:
        return Layout.PRESENT
    return Layout.FOREIGN if tables - {MIGRATIONS} else Layout.EMPTY


def lacking(applied: Iterable[Migration], tables: AbstractSet[str]) -> list[str]:
    """What a database of the earlier layout has too little or too much of to be brought into the present one."""
    kept = set(applied)
    return [
        *(f"the change {app}.{name} is missing" for app, name in LAST if (app, name) not in kept),
        *(f"the table {table} is missing" for table in sorted(set(TABLES) - tables)),
        *(f"the table {table} of the layout after it is there" for table in sorted(set(MOVED.values()) & tables)),
    ]
