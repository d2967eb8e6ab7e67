"""Take weigh slips and check-ins in."""

from django.http import HttpRequest, HttpResponse

from weighin.checkin.services.check_ins import CHECK_IN
from weighin.slips.services.slips import SLIP
from weighin.stations.station.shell import Caller, address_of, take_in


@address_of("POST", "weigh")
def slips(request: HttpRequest, caller: Caller) -> HttpResponse:
    """Take weigh slips in."""
    return take_in(request, caller, SLIP, "slips", "slips:slip")


@address_of("POST", "checkin")
def checkins(request: HttpRequest, caller: Caller) -> HttpResponse:
    """Take check-ins in."""
    return take_in(request, caller, CHECK_IN, "checkins")
