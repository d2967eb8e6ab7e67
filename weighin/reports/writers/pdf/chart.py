"""Draw the page's charts in a PDF: the same marks, each look given ink, pen and dashes for paper."""

from dataclasses import dataclass
from typing import Any

from reportlab.lib import colors
from reportlab.lib.colors import Color
from reportlab.platypus import Flowable

from weighin.reports.writers.pdf.document import INK, INK_2, PEN, RULE, WIDTH, composed
from weighin.reports.writers.pdf.fonts import FIGURES, STRONG, WORDS, register_fonts
from weighin.ui.charts.drawing import Circle, Drawing, Line, Mark, Polygon, Polyline, Text


@dataclass(frozen=True)
class Stroke:
    """How a line of one look is drawn."""

    color: Color
    width: float
    dash: tuple[float, ...] = ()


STROKES = {
    "axis": Stroke(INK, 1),
    "grid": Stroke(RULE, 0.7),
    "limit": Stroke(INK, 1.2, (5, 4)),
    "span": Stroke(PEN, 2.5),
    "broad": Stroke(PEN, 10),
    "fit": Stroke(PEN, 1.5),
    "data": Stroke(PEN, 3),
    "other": Stroke(INK_2, 1.5, (2, 4)),
    "drop": Stroke(INK, 1),
}
BAND = colors.Color(PEN.red, PEN.green, PEN.blue, alpha=0.12)


class ChartFlowable(Flowable):  # type: ignore[misc]
    """A drawing scaled to the page's width."""

    def __init__(self, drawing: Drawing, width: float = WIDTH):
        super().__init__()
        register_fonts()
        self.drawing = drawing
        self.scale = min(1.0, width / drawing.width)
        self.width, self.height = drawing.width * self.scale, drawing.height * self.scale

    def draw(self) -> None:
        canvas = self.canv
        canvas.saveState()
        canvas.translate(0, self.height)
        canvas.scale(self.scale, -self.scale)
        for mark in self.drawing.marks:
            _draw(canvas, mark)
        canvas.restoreState()


def _draw(canvas: Any, mark: Mark) -> None:
    looks = mark.look.split()
    match mark:
        case Line():
            _stroke(canvas, looks)
            canvas.line(mark.x1, mark.y1, mark.x2, mark.y2)
        case Circle():
            hollow = "hollow" in looks
            canvas.setFillColor(colors.white if hollow else PEN)
            canvas.setStrokeColor(PEN if hollow else colors.white)
            canvas.setLineWidth(2 if hollow else 1.5)
            canvas.setDash()
            canvas.circle(mark.x, mark.y, mark.r, stroke=1, fill=1)
        case Text():
            _text(canvas, mark, looks)
        case Polyline():
            _stroke(canvas, looks)
            canvas.drawPath(_path(canvas, mark.points), stroke=1, fill=0)
        case Polygon():
            canvas.setFillColor(BAND if "band" in looks else PEN)
            canvas.drawPath(_path(canvas, mark.points, closed=True), stroke=0, fill=1)


def _text(canvas: Any, mark: Text, looks: list[str]) -> None:
    font = WORDS if "name" in looks else STRONG if {"strong", "penned"} & set(looks) else FIGURES
    color = PEN if "penned" in looks else INK if {"ink", "strong", "name"} & set(looks) else INK_2
    canvas.saveState()
    canvas.translate(mark.x, mark.y)
    canvas.scale(1, -1)
    # The page's size is a little wide for DejaVu, which runs broader than a system font.
    size = mark.size * 0.9
    canvas.setFont(font, size)
    if "halo" in looks:
        wide = canvas.stringWidth(mark.words, font, size)
        left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[mark.anchor]
        canvas.setFillColor(colors.white)
        canvas.rect(left - 1.5, -0.2 * size, wide + 3, 0.95 * size, stroke=0, fill=1)
    canvas.setFillColor(color)
    write = {"start": canvas.drawString, "middle": canvas.drawCentredString, "end": canvas.drawRightString}[mark.anchor]
    write(0, 0, composed(mark.words))
    canvas.restoreState()


def _stroke(canvas: Any, looks: list[str]) -> None:
    stroke = next((STROKES[look] for look in reversed(looks) if look in STROKES), STROKES["axis"])
    canvas.setStrokeColor(stroke.color)
    canvas.setLineWidth(stroke.width)
    canvas.setDash(*((list(stroke.dash), 0) if stroke.dash else ([], 0)))
    canvas.setLineCap(0)


def _path(canvas: Any, points: tuple[tuple[float, float], ...], closed: bool = False) -> Any:
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    if closed:
        path.close()
    return path
