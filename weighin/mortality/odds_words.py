"""Odds ratios in words: a part of the odds below one, so many times the odds above."""

from weighin.mortality.words import times

_PARTS = (
    (0.22, 0.28, "about a quarter of the odds"),
    (0.29, 0.38, "about a third of the odds"),
    (0.45, 0.55, "about half the odds"),
    (0.62, 0.71, "about two thirds of the odds"),
    (0.72, 0.79, "about three quarters of the odds"),
    (0.96, 1.05, "about the same odds"),
)


def odds_said(value: float, low: float, high: float) -> str:
    """An odds ratio with its 95 % range.

    >>> odds_said(0.3446, 0.1234, 0.9623), odds_said(1.6, 1.1, 2.4)
    ('about a third of the odds (0.12 to 0.96)', 'about 1.6 times the odds (1.1 to 2.4)')
    """
    part = next((words for least, most, words in _PARTS if least <= value < most), f"about {times(value)} the odds")
    return f"{part} ({_bare(low)} to {_bare(high)})"


def _bare(ratio: float) -> str:
    return times(ratio).removesuffix(" times")
