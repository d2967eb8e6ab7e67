"""The forms at the release: a batch or boat trip, a walk for floaters, fish that did not go back."""

from django.utils.translation import gettext

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import RowForm
from weighin.rules.values import plain
from weighin.tanks.services.releases import FLOATER_WALK, KEPT_FISH, RELEASE


class ReleaseForm(RowForm):
    """One batch or boat trip let go at one place."""

    record = RELEASE
    page = "tanks/release.html"
    back = "care:releases"

    def suit(self, care_context: CareContext) -> None:
        most = plain(care_context.rules.care_max_cooling_f)
        self.fields["tank_temp"].help_text = gettext("More than %(most)s °F apart: let lake water in first.") % {
            "most": most
        }


class WalkForm(RowForm):
    """A walk along the shore for dead fish, 24, 48 or 72 hours after the release."""

    record = FLOATER_WALK
    page = "tanks/walk.html"
    back = "care:releases"


class KeptForm(RowForm):
    """Fish that did not go back."""

    record = KEPT_FISH
    page = "tanks/kept.html"
    back = "care:releases"
