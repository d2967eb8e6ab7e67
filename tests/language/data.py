"""What people wrote: names, notes and words kept in the database, and the few signs that no language translates."""

import re
from collections.abc import Iterable
from datetime import datetime
from zoneinfo import ZoneInfo, available_timezones

from django.apps import apps
from django.db import models

from weighin.events.models import Event
from weighin.rules.sheet.keys import KEYS
from weighin.rules.sheets.starting import STARTING

# Units, names of file forms and of the site itself: the same in every language.
SIGNS = (
    "lb oz kg g F C °F °C mg/L g/L mL/min mL gal L gph L/h L/min kPa ft mi in s min h d pH N W a4 A4 A6 PDF CSV JSON XLSX ZIP "
    "weighin NIST RAMP x English Español GET POST"
).split()
# What a rule sheet says for a key, as it is written.
_SAID = {"none", "yes", "no", *(said for key in KEYS for said in (key.default, *key.choices))}
_SAID |= {said for sheet in STARTING for said in sheet.written("lb").values()}
RULE_VALUES = _SAID | {said.replace("_", " ") for said in _SAID}
# Time zones stand in their list by the names that the time zone database gives them.
ZONES = available_timezones()
ADDRESS = re.compile(r"(?<!\S)(?:https?://|/)\S+|\b[\w-]+\.(?:xlsx|json|csv|pdf|zip|py)\b")
DIGEST = re.compile(r"\b[0-9a-f]{8,64}\b|\b(?:[0-9a-f]{4} ){3}[0-9a-f]{4}\b")  # also in groups, to be read out
# The key of a second factor as people type it
FACTOR_KEY = re.compile(r"\b(?:[A-Z2-7]{4} ){7}[A-Z2-7]{4}\b")

# The end of slips or history as people read it out
READ_OUT = re.compile(r"\b(?:[0-9a-f]{4} ){3}[0-9a-f]{4}\b")


def written() -> set[str]:
    """Every text of the database that is no choice of ours."""
    found: set[str] = set()
    for model in apps.get_models():
        if model.__module__.startswith("weighin."):
            for column in model._meta.concrete_fields:
                if isinstance(column, models.CharField | models.TextField) and not column.choices:
                    found.update(model._default_manager.values_list(column.attname, flat=True).distinct())
    for zone in Event.objects.values_list("time_zone", flat=True):
        found.update(datetime(2026, month, 1, tzinfo=ZoneInfo(zone)).tzname() or "" for month in (1, 7))
    found.update(key.name for key in KEYS)
    return {" ".join(str(text).split()) for text in found if text and any(sign.isalpha() for sign in str(text))}


class Data:
    """Takes out of a text what people wrote."""

    def __init__(self, texts: Iterable[str]):
        self._texts = frozenset(texts)
        short = sorted((t for t in self._texts if len(t) <= 80), key=len, reverse=True)
        self._inside = re.compile("|".join(rf"(?<!\w){re.escape(text)}(?!\w)" for text in short) or "(?!)")
        self._signs = re.compile(
            "|".join(rf"(?<![^\W\d]){re.escape(s)}(?![^\W\d])" for s in sorted(SIGNS, key=len, reverse=True))
        )

    def left(self, piece: str) -> str:
        """Words of ours in a piece: what stays without names, notes, addresses, digests, units and figures."""
        bare = piece.strip(" .:")
        whole = piece in self._texts or bare in self._texts or bare in RULE_VALUES or bare in ZONES
        left = "" if whole else piece
        for gone in (ADDRESS, FACTOR_KEY, READ_OUT, self._inside, DIGEST, self._signs):
            left = gone.sub(" ", left)
        return " ".join(left.split()) if re.search(r"[^\W\d_]", left) else ""
