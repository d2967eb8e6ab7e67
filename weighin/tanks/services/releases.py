"""Releases, walks for floaters and fish that did not go back, through the door."""

from django.utils.translation import gettext_lazy

from weighin.records.parsing.reader import Reader
from weighin.roster.services.event_rows import EventRow
from weighin.tanks.domain import faults, fields
from weighin.tanks.models import FloaterWalk, KeptFish, Release


class ReleaseRecord(EventRow[Release]):
    """A batch or boat trip let go at one place."""

    model = Release
    noun = gettext_lazy("release")
    act = "release"
    fields = fields.RELEASE

    def check(self, reader: Reader, old: Release | None) -> None:
        if reader["fish"] and reader["dead"] > reader["fish"]:
            reader.fault("dead", faults.MORE_DEAD_THAN_BROUGHT, "fish", dead=reader["dead"], fish=reader["fish"])


class WalkRecord(EventRow[FloaterWalk]):
    """A walk for floaters, which may come days after the event was closed."""

    model = FloaterWalk
    noun = gettext_lazy("count of floating fish")
    act = "floater_walk"
    fields = fields.WALK
    after_closing = True


class KeptRecord(EventRow[KeptFish]):
    """What became of fish that did not go back."""

    model = KeptFish
    noun = gettext_lazy("kept fish")
    act = "kept_fish"
    fields = fields.KEPT

    def check(self, reader: Reader, old: KeptFish | None) -> None:
        if reader["came_back"] and reader["went"] != KeptFish.Went.LENT:
            reader.fault("came_back", faults.NOT_LENT, "went")
        elif reader["fish"] and reader["came_back"] > reader["fish"]:
            reader.fault("came_back", faults.MORE_BACK_THAN_LENT, "fish", back=reader["came_back"], fish=reader["fish"])


RELEASE = ReleaseRecord()
FLOATER_WALK = WalkRecord()
KEPT_FISH = KeptRecord()
