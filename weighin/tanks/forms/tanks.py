"""The forms at the tank: a reading, and what was put in."""

from django.utils.translation import gettext

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import RowForm
from weighin.rules.values import plain
from weighin.tanks.services.readings import TANK_READING, TREATMENT
from weighin.ui.figures import degrees


class ReadingForm(RowForm):
    """A tank reading, in the order in which the meters are dipped. Blank is not measured."""

    record = TANK_READING
    page = "tanks/reading.html"
    back = "tanks:tanks"

    def suit(self, care_context: CareContext) -> None:
        lake = care_context.lake(care_context.likely_day)
        known = " " + gettext("The lake: %(written)s.") % {"written": degrees(lake.figure, lake.unit)} if lake else ""
        self.fields["temp"].help_text = (
            gettext("At most %(care_max_cooling_f)s °F below the lake.")
            % {"care_max_cooling_f": plain(care_context.rules.care_max_cooling_f)}
            + known
        )
        self.fields["do"].help_text = gettext("Keep %(care_min_do)s or more.") % {
            "care_min_do": plain(care_context.rules.care_min_do)
        }


class TreatmentForm(RowForm):
    """Something put into a tank, or its water changed."""

    record = TREATMENT
    page = "tanks/treatment.html"
    back = "tanks:tanks"
