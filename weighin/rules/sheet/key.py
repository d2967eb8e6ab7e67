"""A key of the rule sheet: its kind, its default and its meaning in words."""

from dataclasses import dataclass

from weighin.rules.language import gettext


@dataclass(frozen=True)
class Key:
    """One line of the rule sheet.

    ``kind`` names the reader; ``default`` is text, with ``default_kg`` where kilograms differ;
    ``optional`` keys may say ``none``; ``least`` bounds whole numbers. Of a key of kind ``choice`` each choice has its
    meaning instead. Texts are marked here and come out in the reader's language.
    """

    name: str
    _section: str
    _label: str
    kind: str
    default: str
    _meaning: str
    default_kg: str | None = None
    choices: tuple[str, ...] = ()
    _meanings: tuple[str, ...] = ()
    optional: bool = False
    least: int = 0

    @property
    def section(self) -> str:
        return gettext(self._section)

    @property
    def label(self) -> str:
        return gettext(self._label)

    @property
    def meaning(self) -> str:
        if self._meanings:
            return " ".join(
                gettext("%(choice)s: %(meaning)s.") % {"choice": choice, "meaning": meaning}
                for choice, meaning in self.meanings.items()
            )
        return gettext(self._meaning)

    @property
    def meanings(self) -> dict[str, str]:
        """What each choice means, for a key of kind ``choice``."""
        return {choice: gettext(text) for choice, text in zip(self.choices, self._meanings, strict=False)}
