"""Bytes of a serial line put together into lines, and lines into readings that may be believed."""

from weighin.scales.domain.layouts import LONGEST, Layout
from weighin.scales.domain.reading import Reading, read

ENDS = "\r\n"


class Listener:
    """Takes bytes as they come and gives the readings of every whole line, in order.

    A scale that speaks all the time, or whenever it is asked, is believed when the same line comes twice in a row, to
    the last sign: damage could make the same wrong weight of two lines, but hardly in the same way. A sign lost or
    doubled changes a line's length, so the first, and one longer or shorter than the last believed, must come three
    times. What came before its first line end is a line cut in two and is not read. A scale that speaks only when its
    own key is pressed says everything ``once``.
    """

    def __init__(self, layout: Layout, once: bool = False) -> None:
        self.layout, self.once = layout, once
        self._begun = once
        self._held = ""
        self._before = ""
        self._times, self._enough = 0, 3
        self._usual = 0

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
                reading = self._believed(read(self.layout, line), line[line.rfind("\x02") + 1 :])
                found += [reading] if reading else []
        return found

    def _believed(self, reading: Reading | None, line: str) -> Reading | None:
        if line == self._before:
            self._times += 1
        else:
            self._enough = 2 if len(line) == self._usual else 3
            self._before, self._times = line, 1
        if reading is None or (reading.stable and not self.once and self._times < self._enough):
            return None
        if reading.stable:
            self._usual = len(line)
        return reading
