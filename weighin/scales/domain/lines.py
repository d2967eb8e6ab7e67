"""Bytes of a serial line put together into lines, and lines into readings that may be believed."""

from weighin.scales.domain.layouts import LONGEST, Layout
from weighin.scales.domain.reading import Reading, read

ENDS = "\r\n"


class Listener:
    """Takes bytes as they come and gives the readings of every whole line, in order.

    A scale that speaks all the time, or whenever it is asked, is believed when the same weight comes ``twice`` in a
    row: a sign that was lost on the way could pass for another weight. What came before its first line end is a line
    cut in two and is not read. A scale that speaks only when its own key is pressed says everything ``once``.
    """

    def __init__(self, layout: Layout, once: bool = False) -> None:
        self.layout, self.once = layout, once
        self._begun = once
        self._held = ""
        self._before: tuple[str, str] | None = None

    def hear(self, data: bytes) -> list[Reading]:
        """The readings of the lines that end in ``data``; lines that are none of the layout's are passed over."""
        found = []
        for sign in data.decode("latin-1"):
            if sign not in ENDS:
                self._held = (self._held + sign)[-LONGEST * 2 :]
                continue
            line, self._held = self._held, ""
            begun, self._begun = self._begun, True
            if begun and line:
                reading = self._believed(read(self.layout, line))
                found += [reading] if reading else []
        return found

    def _believed(self, reading: Reading | None) -> Reading | None:
        said = (reading.text, reading.unit) if reading and reading.stable else None
        before, self._before = self._before, said
        if reading is None or (reading.stable and not self.once and before != said):
            return None
        return reading
