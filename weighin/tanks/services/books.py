"""How readings, treatments, releases, walks and kept fish are kept and named in the history."""

from weighin.events.services.rows import Book
from weighin.tanks.models import FloaterWalk, KeptFish, Release, TankReading, Treatment
from weighin.tanks.parsing.releases import KEPT_FIELDS, RELEASE_FIELDS, WALK_FIELDS
from weighin.tanks.parsing.tanks import TANK_FIELDS, TREATMENT_FIELDS

RELEASES = Book(Release, "release", "Release", RELEASE_FIELDS)
WALKS = Book(FloaterWalk, "floater_walk", "Floater walk", WALK_FIELDS, after_closing=True)
KEPT = Book(KeptFish, "kept_fish", "Kept fish", KEPT_FIELDS)

READINGS = Book(TankReading, "tank", "Tank reading", ("day", *TANK_FIELDS), key="sent_id")
TREATMENTS = Book(Treatment, "treatment", "Treatment", TREATMENT_FIELDS)
