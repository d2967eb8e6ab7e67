"""How readings and treatments are kept and named in the history."""

from weighin.fishcare.desk import Desk, of_event
from weighin.fishcare.keeping import Book
from weighin.fishcare.models import TankReading, Treatment
from weighin.fishcare.reading import TANK_FIELDS
from weighin.fishcare.tanks.forms import ReadingForm, TreatmentForm
from weighin.fishcare.tanks.reading import TREATMENT_FIELDS, read_reading, read_treatment

READINGS = Book(TankReading, "tank", "Tank reading", ("day", *TANK_FIELDS), key="sent_id")
TREATMENTS = Book(Treatment, "treatment", "Treatment", TREATMENT_FIELDS)


READING_DESK = Desk(READINGS, ReadingForm, of_event(read_reading), "fishcare/tanks/reading.html", "fishcare:tanks")
TREATMENT_DESK = Desk(
    TREATMENTS, TreatmentForm, of_event(read_treatment), "fishcare/tanks/treatment.html", "fishcare:tanks"
)
