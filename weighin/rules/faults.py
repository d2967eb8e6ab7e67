"""Faults: what is wrong with an input, where, and what to do about it.

A ``Sentence`` is a constant with a code; a fault is a sentence with its parameters, and becomes words, in the
reader's language, only when somebody reads it. Nothing in the code reads words.
"""

import re
from abc import ABC, abstractmethod
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Self

from weighin.rules import language


def gettext_noop(text: str) -> str:
    """Marks a text for the catalogue; it is looked up when it is read."""
    return text


def ngettext_noop(one: str, many: str) -> tuple[str, str]:
    """Marks a text that depends on a number: one form for 1, another for more."""
    return one, many


class Shown(ABC):
    """What stands in a sentence and has words of its own."""

    @abstractmethod
    def shown(self) -> str:
        """The words, in the language active now."""

    @abstractmethod
    def in_labels(self, labels: Mapping[str, str]) -> Self:
        """The same with fields by the labels that a page gives them."""

    def __str__(self) -> str:
        return self.shown()


@dataclass(frozen=True)
class Sentence:
    """A sentence of the site: a code that no other has, and its text with named placeholders.

    ``text`` is marked by ``gettext_noop``, or by ``ngettext_noop`` where it depends on the number in the
    parameter ``count``. A per cent sign is written ``%%``. ``on_pages`` stands in its place, with the same
    placeholders, where a page speaks to who typed: it may be typed in more ways than a file or a message has.
    """

    code: str
    text: str | tuple[str, str]
    count: str = "n"
    on_pages: str = ""

    def at(self, field: str, /, *also: str, **params: object) -> "Fault":
        """The fault of a field; ``also`` names other fields that play a part."""
        return Fault(field, self.says(**params), also)

    def wrong(self, **params: object) -> "Wrong":
        """The error of a value that cannot be read, to be raised."""
        return Wrong(self.says(**params))

    def says(self, **params: object) -> "Said":
        """The sentence with its parameters, to stand by itself or inside another sentence."""
        return Said(self, tuple(sorted(params.items())))


@dataclass(frozen=True)
class Said(Shown):
    """A sentence with what stands in its placeholders: figures, texts, field names, lists, other sentences."""

    sentence: Sentence
    filled: tuple[tuple[str, object], ...] = ()

    @property
    def code(self) -> str:
        return self.sentence.code

    @property
    def params(self) -> dict[str, object]:
        return dict(self.filled)

    def shown(self) -> str:
        """The sentence in the language active now."""
        params = self.params
        text = self.sentence.text
        if isinstance(text, tuple):
            number: Any = params[self.sentence.count]
            words = language.ngettext(*text, number)
        else:
            words = language.gettext(text)
        return words % {name: _shown(value) for name, value in params.items()}

    def in_labels(self, labels: Mapping[str, str]) -> Self:
        """The sentence as a page says it, with fields by the labels that it gives them."""
        sentence = replace(self.sentence, text=self.sentence.on_pages or self.sentence.text)
        return replace(
            self, sentence=sentence, filled=tuple((name, _in_labels(value, labels)) for name, value in self.filled)
        )


@dataclass(frozen=True)
class Fault:
    """One thing wrong: the field it stands in and a sentence that says what to do.

    ``field`` may be empty when the whole row or sheet is meant; ``also`` names other fields that play a part.
    """

    field: str
    said: Said
    also: tuple[str, ...] = ()

    @property
    def code(self) -> str:
        return self.said.code

    @property
    def params(self) -> dict[str, object]:
        return self.said.params

    @property
    def message(self) -> str:
        """The sentence in the language active now."""
        return self.said.shown()

    def in_labels(self, labels: Mapping[str, str]) -> Self:
        """The same fault with fields such as ``bag_emptied`` by the labels that a page gives them."""
        return replace(self, said=self.said.in_labels(labels))


class Wrong(ValueError):
    """A value that cannot be read: a sentence without its field, which who reads the field adds by ``at``."""

    def __init__(self, said: Said):
        super().__init__(said)
        self.said = said

    def __str__(self) -> str:
        return self.said.shown()

    @property
    def code(self) -> str:
        return self.said.code

    @property
    def params(self) -> dict[str, object]:
        return self.said.params

    def at(self, field: str, /, *also: str) -> Fault:
        """The fault of the field that holds the value."""
        return Fault(field, self.said, also)


class Faults(ValueError):
    """All faults of one input at once, never only the first."""

    def __init__(self, faults: Iterable[Fault]):
        self.faults = tuple(faults)
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "; ".join(f"{f.field}: {f.message}" if f.field else f.message for f in self.faults)


_BY_LABEL = Sentence("field_by_label", gettext_noop("“%(label)s”"))


@dataclass(frozen=True)
class FieldName(Shown):
    """A field in a sentence: by its name as a workbook and a message have it, on a page by its label."""

    name: str
    label: str = ""

    def shown(self) -> str:
        return _BY_LABEL.says(label=self.label).shown() if self.label else self.name

    def in_labels(self, labels: Mapping[str, str]) -> Self:
        return replace(self, label=labels.get(self.name, self.label))


_OR = Sentence("list_or", gettext_noop("%(most)s or %(last)s"))
_AND = Sentence("list_and", gettext_noop("%(most)s and %(last)s"))


@dataclass(frozen=True)
class Listed(Shown):
    """A list in a sentence: ``a, b, c``."""

    items: tuple[object, ...]

    def shown(self) -> str:
        return ", ".join(str(_shown(item)) for item in self.items)

    def in_labels(self, labels: Mapping[str, str]) -> Self:
        return replace(self, items=tuple(_in_labels(item, labels) for item in self.items))


class Choices(Listed):
    """A list of which one is to be chosen: ``a, b or c``."""

    def shown(self) -> str:
        return _with_last(_OR, self.items)


class Together(Listed):
    """A list of which all are meant: ``a, b and c``."""

    def shown(self) -> str:
        return _with_last(_AND, self.items)


class Parts(Listed):
    """Sentences in a sentence, one after the other: ``a; b``."""

    def shown(self) -> str:
        return "; ".join(str(_shown(item)) for item in self.items)


def placeholders(sentence: Sentence) -> set[str]:
    """The names of the parameters that a sentence has places for."""
    texts = sentence.text if isinstance(sentence.text, tuple) else (sentence.text,)
    found = {name for text in texts for name in re.findall(r"(?<!%)(?:%%)*%\((\w+)\)", text)}
    return found | {sentence.count} if isinstance(sentence.text, tuple) else found


def _with_last(joined: Sentence, items: tuple[object, ...]) -> str:
    if len(items) < 2:
        return Listed(items).shown()
    return joined.says(most=Listed(items[:-1]), last=items[-1]).shown()


def _shown(value: object) -> object:
    return value.shown() if isinstance(value, Shown) else value


def _in_labels(value: object, labels: Mapping[str, str]) -> object:
    return value.in_labels(labels) if isinstance(value, Shown) else value
