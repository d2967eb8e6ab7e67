"""The addresses for programs in plain words, for the page that people read."""

from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

EVENT, CLUB = "EVENT", "CLUB"  # stand for the word in an event's or a club's own address
Lines = tuple[tuple[str, str, str | Promise], ...]


def open_to_all() -> Lines:
    """Method, address and meaning of what anybody may ask."""
    return (
        ("GET", _at("public:api_event", EVENT), _("A published event as JSON: rules, teams, slips, standings, and what the result is by now.")),
        ("GET", _at("public:api_proof", EVENT), _("The proof of its slips: all from which the result can be worked out again, without names.")),
        ("GET", _at("public:feed", CLUB), _("Results of an open club as a feed (JSON Feed 1.1).")),
        ("GET", _at("public:calendar", CLUB), _("Dates of an open club for calendars (RFC 5545).")),
        ("GET", _at("public:openapi"), _("This list for programs, with every field (OpenAPI).")),
    )  # fmt: skip


def for_tablets() -> Lines:
    """The same of what asks for a tablet's token; a paired scale or script has one too."""
    return (
        ("GET", _at("stations:api_station", EVENT), _("All a tablet needs for a day without a network; with ?since= only what changed.")),
        ("POST", _at("stations:api_slips", EVENT), _("Sends slips. Each has an id of its own, so sending twice counts once.")),
        ("POST", _at("stations:api_checkins", EVENT), _("Sends check-ins.")),
        ("POST", _at("care:api_care", EVENT), _("Sends fish-care notes.")),
        ("GET", _at("care:api_ramp", EVENT), _("What the phone at the ramp needs: boats and their notes.")),
        ("GET", _at("stations:api_scales", EVENT), _("The event’s scales and how to read their lines.")),
        ("POST", _at("stations:api_readings", EVENT), _("Sends the readings that went into slips.")),
        ("POST", _at("stations:api_scales_now", EVENT), _("Sends what each scale shows now.")),
    )  # fmt: skip


def _at(name: str, slug: str = "") -> str:
    return reverse(name, args=[slug] if slug else [])
