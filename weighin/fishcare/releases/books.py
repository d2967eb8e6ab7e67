"""How releases, walks and kept fish are kept and named in the history."""

from weighin.fishcare.desk import Desk, of_event
from weighin.fishcare.keeping import Book
from weighin.fishcare.models import FloaterWalk, KeptFish, Release
from weighin.fishcare.releases.forms import KeptForm, ReleaseForm, WalkForm
from weighin.fishcare.releases.reading import (
    KEPT_FIELDS,
    RELEASE_FIELDS,
    WALK_FIELDS,
    read_kept,
    read_release,
    read_walk,
)

BACK = "fishcare:releases"
RELEASES = Book(Release, "release", "Release", RELEASE_FIELDS)
WALKS = Book(FloaterWalk, "floater_walk", "Floater walk", WALK_FIELDS, after_closing=True)
KEPT = Book(KeptFish, "kept_fish", "Kept fish", KEPT_FIELDS)


RELEASE_DESK = Desk(RELEASES, ReleaseForm, of_event(read_release), "fishcare/releases/release.html", BACK)
WALK_DESK = Desk(WALKS, WalkForm, of_event(read_walk), "fishcare/releases/walk.html", BACK)
KEPT_DESK = Desk(KEPT, KeptForm, of_event(read_kept), "fishcare/releases/kept.html", BACK)
