"""Odds ratios in words: a part of the odds below one, so many times the odds above."""

from django.utils.translation import gettext, gettext_lazy

from weighin.mortality.domain.words import ratio, times

_PARTS = (
    (0.22, 0.28, gettext_lazy("about a quarter of the odds")),
    (0.29, 0.38, gettext_lazy("about a third of the odds")),
    (0.45, 0.55, gettext_lazy("about half the odds")),
    (0.62, 0.71, gettext_lazy("about two thirds of the odds")),
    (0.72, 0.79, gettext_lazy("about three quarters of the odds")),
    (0.96, 1.05, gettext_lazy("about the same odds")),
)


def odds_said(value: float, low: float, high: float) -> str:
    """An odds ratio with its 95 % range.

    >>> odds_said(0.3446, 0.1234, 0.9623), odds_said(1.6, 1.1, 2.4)
    ('about a third of the odds (0.12 to 0.96)', 'about 1.6 times the odds (1.1 to 2.4)')
    """
    part = next(
        (words for least, most, words in _PARTS if least <= value < most),
        gettext("about %(times)s the odds") % {"times": times(value)},
    )
    return gettext("%(part)s (%(low)s to %(high)s)") % {"part": part, "low": ratio(low), "high": ratio(high)}
