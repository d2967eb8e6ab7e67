"""Where readings, treatments, releases, walks and kept fish are written."""

from weighin.events.pages import Desk, of_event
from weighin.tanks.forms.releases import KeptForm, ReleaseForm, WalkForm
from weighin.tanks.forms.tanks import ReadingForm, TreatmentForm
from weighin.tanks.parsing.releases import read_kept, read_release, read_walk
from weighin.tanks.parsing.tanks import read_reading, read_treatment
from weighin.tanks.services.books import KEPT, READINGS, RELEASES, TREATMENTS, WALKS

BACK = "care:releases"


RELEASE_DESK = Desk(RELEASES, ReleaseForm, of_event(read_release), "tanks/release.html", BACK)
WALK_DESK = Desk(WALKS, WalkForm, of_event(read_walk), "tanks/walk.html", BACK)
KEPT_DESK = Desk(KEPT, KeptForm, of_event(read_kept), "tanks/kept.html", BACK)

READING_DESK = Desk(READINGS, ReadingForm, of_event(read_reading), "tanks/reading.html", "tanks:tanks")
TREATMENT_DESK = Desk(TREATMENTS, TreatmentForm, of_event(read_treatment), "tanks/treatment.html", "tanks:tanks")
