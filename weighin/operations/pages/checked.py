"""What a file that somebody brought was found to be, for the script of the page that checks results."""

from collections.abc import Mapping
from typing import Any

from django.utils.translation import gettext


def said_of_file(context: Mapping[str, Any]) -> dict[str, Any]:
    """``finding``, a sentence, and ``differs``, the lines below it."""
    if "verdict" not in context:
        return {"finding": context["refused"], "differs": []}
    verdict = context["verdict"]
    altered = gettext("What this site keeps of the event is not as it was written: ask the club’s director.")
    return {
        "finding": " ".join((verdict.finding, *verdict.beside)),
        "differs": [*verdict.differs, *([] if context["holds"] else [altered])],
    }
