"""A language for tests alone: every text that is looked up stands in brackets, so what is not was forgotten."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from unittest.mock import patch

from django.test import override_settings
from django.utils import translation

CODE = "en-xa"
OPENS, SHUTS = "‹", "›"  # signs that the fonts of the PDFs have and no text uses
Message = tuple[str, str]  # context, text


@dataclass
class Asked:
    """The texts that were looked up while the language was spoken, each with its context."""

    messages: set[Message] = field(default_factory=set)

    def gettext(self, message: str) -> str:
        return self._say("", message)

    def pgettext(self, context: str, message: str) -> str:
        return self._say(context, message)

    def ngettext(self, singular: str, plural: str, number: float) -> str:
        return self.npgettext("", singular, plural, number)

    def npgettext(self, context: str, singular: str, plural: str, number: float) -> str:
        self.messages.add((context, singular))
        return f"{OPENS}{singular if number == 1 else plural}{SHUTS}"

    def _say(self, context: str, message: str) -> str:
        if not str(message).strip():
            return message
        self.messages.add((context, str(message)))
        return f"{OPENS}{message}{SHUTS}"


@contextmanager
def spoken() -> Iterator[Asked]:
    """Inside it pages are in the language of brackets."""
    asked = Asked()
    look_up = {name: getattr(asked, name) for name in ("gettext", "pgettext", "ngettext", "npgettext")}
    with (
        override_settings(LANGUAGE_CODE=CODE),
        translation.override(CODE),
        patch.multiple(translation._trans, **look_up),
    ):  # type: ignore[attr-defined]
        yield asked
