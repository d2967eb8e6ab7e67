"""One chart, drawn for each width of page: a phone gets its own drawing, never a shrunken one."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from weighin.ui.charts.drawing import Drawing

WHOLE, HALF, PHONE = 960.0, 600.0, 270.0


@dataclass(frozen=True)
class Drawings:
    """The same chart for a page of whole width, of half width (and print), and of a phone."""

    whole: Drawing
    half: Drawing
    phone: Drawing


def drawn(chart: Callable[..., Drawing], *args: Any, **kwargs: Any) -> Drawings:
    """``drawn(events_dots, rows, title="...", stop=0.1)``: a chart function at the three widths."""
    return Drawings(*(chart(*args, **kwargs, width=width) for width in (WHOLE, HALF, PHONE)))
