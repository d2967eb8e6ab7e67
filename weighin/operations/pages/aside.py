"""What the history says of persons, beside its lines."""

from collections.abc import Iterable

from django.utils.translation import gettext, gettext_lazy

from weighin.audit.models import HistoryEntry
from weighin.audit.queries import words_aside

LABELS = {
    "anglers": gettext_lazy("Anglers: %(words)s"),
    "anglers_before": gettext_lazy("Anglers before: %(words)s"),
    "note": gettext_lazy("Note: %(words)s"),
    "note_before": gettext_lazy("Note before: %(words)s"),
}


def put_beside(entries: Iterable[HistoryEntry]) -> None:
    """Give each entry ``beside``: what it says of persons, a text each; words that were erased are said to be."""
    shown = list(entries)
    found = words_aside(shown)
    for entry in shown:
        entry.beside = [  # type: ignore[attr-defined]
            LABELS[name] % {"words": ", ".join(gettext("erased") if word is None else word for word in words)}
            for name, words in found.get(entry.pk, {}).items()
        ]
