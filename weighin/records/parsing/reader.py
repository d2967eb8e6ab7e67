"""Read a draft's texts by the fields of its kind of row, and collect everything that is wrong."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import Any

from weighin.records.domain import faults
from weighin.records.domain.fields import Field
from weighin.rules import values
from weighin.rules.faults import Fault, Faults, FieldName, Sentence, Wrong


class Reader:
    """The values of a draft as far as they can be read; a field that cannot has its blank.

    ``current``: the row is to count; one that another replaces, or a void, may stand where a current one may not.
    ``needed`` names the fields that must be there. ``unsure`` names fields and keys of the rule sheet that could not be
    read: nothing is said that hangs on them. ``asked``: whoever wrote it can be asked at once about what is doubtful.
    """

    def __init__(
        self,
        fields: Sequence[Field],
        texts: Mapping[str, str | None],
        context: Any,
        *,
        current: bool = True,
        needed: Collection[str] = (),
        unsure: Collection[str] = (),
        asked: bool = False,
    ):
        self.fields = fields
        self.texts = {name: (text or "").strip() for name, text in texts.items()}
        self.context = context
        self.current = current
        self.needed = frozenset(needed)
        self.unsure = frozenset(unsure)
        self.asked = asked
        self.values: dict[str, Any] = {}
        self.faults: list[Fault] = []

    def read(self) -> None:
        """Read every field, in their order."""
        for field in self.fields:
            self.values[field.name] = self._value(field, field.name in self.needed)

    def _value(self, field: Field, needed: bool) -> Any:
        if field.kind.parts:
            return self._joined(field, needed)
        text = self.texts.get(field.name, "")
        if not text:
            if needed:
                self.fault(field.name, field.missing or faults.MISSING, field=FieldName(field.name))
            return field.blank
        try:
            return field.kind.read(text, self)
        except Wrong as wrong:
            self.faults.append(wrong.at(field.name))
            return field.blank

    def _joined(self, field: Field, needed: bool) -> Any:
        """A value that is written in parts, each under a name of its own, such as ``walked_date`` and ``walked_time``."""
        parts = [replace(field, name=f"{field.name}_{part}", kind=kind) for part, kind in field.kind.parts.items()]
        values = [self._value(part, needed) for part in parts]
        if None in values:
            return field.blank
        try:
            return field.kind.joined(values, self)
        except Wrong as wrong:
            self.faults.append(wrong.at(parts[-1].name))
            return field.blank

    def __getitem__(self, name: str) -> Any:
        return self.values[name]

    def fault(self, name: str, sentence: Sentence, *also: str, **params: object) -> None:
        """Note what is wrong with a field."""
        self.faults.append(Fault(name, sentence.says(**params), also))

    def sure(self, *names: str) -> bool:
        """Whether none of the fields is wrong or unsure."""
        return self.unsure.isdisjoint(names) and not any(fault.field in names for fault in self.faults)

    def finish(self) -> dict[str, Any]:
        """The values. Raises Faults with everything that is wrong."""
        if self.faults:
            raise Faults(self.faults)
        return self.values


def boat_and_day(written: Mapping[str, str | None]) -> tuple[int, int] | None:
    """The boat and day a row is written for, as far as both can be read."""
    try:
        boat, day = (values.whole(written.get(name) or "", most=2_000_000_000) for name in ("boat", "day"))
    except ValueError:
        return None
    return boat, day
