"""The line from check-in to the scales. Bags are the brake: a bag goes out when the line can take it.

Pure, the standard library alone: ``services`` (how long a boat takes), ``forecast`` (how long fish would be in a bag
given out now), ``simulation`` (a whole tournament). ``simulate`` is here too: ``weighin.scale.line.simulate(...)``.
"""

from weighin.scale.line.simulation import Run, Wait, simulate

__all__ = ["Run", "Wait", "simulate"]
