"""What the history says of persons, beside its lines."""

from collections.abc import Iterable

from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.audit.models import HistoryEntry
from weighin.audit.queries import words_aside
from weighin.events.models import Event
from weighin.roster.queries import names_erased

LABELS = {
    "anglers": gettext_lazy("Anglers: %(words)s"),
    "anglers_before": gettext_lazy("Anglers before: %(words)s"),
    "note": gettext_lazy("Note: %(words)s"),
    "note_before": gettext_lazy("Note before: %(words)s"),
}


def erased_said(event: Event) -> str:
    """How many names of an event's anglers were erased, as a sentence; empty where none was."""
    names = names_erased(event)
    if not names:
        return ""
    return ngettext(
        "%(n)s angler’s name of it was erased; its history says by whom and when, and no result names anglers.",
        "%(n)s anglers' names of it were erased; its history says by whom and when, and no result names anglers.",
        names,
    ) % {"n": names}


def put_beside(entries: Iterable[HistoryEntry]) -> None:
    """Give each entry ``beside``: what it says of persons, a text each; words that were erased are said to be."""
    shown = list(entries)
    found = words_aside(shown)
    for entry in shown:
        entry.beside = [  # type: ignore[attr-defined]
            LABELS[name] % {"words": ", ".join(gettext("erased") if word is None else word for word in words)}
            for name, words in found.get(entry.pk, {}).items()
        ]
