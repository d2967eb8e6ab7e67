"""What a station can be let do."""

from django.utils.translation import gettext_lazy

CANS = {
    "weigh": gettext_lazy("add weigh slips"),
    "checkin": gettext_lazy("check boats in"),
    "care": gettext_lazy("add care notes"),
}
