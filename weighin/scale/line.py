"""``weighin.scale.line.simulate``, the name that programs outside this site call; the line itself is ``weighin.line``."""

from weighin.line.domain.simulation import simulate

__all__ = ["simulate"]
