"""A kept check judged."""

from weighin.rules import weights
from weighin.scales.domain.tolerance import Verdict, judged
from weighin.scales.models import ScaleCheck


def verdict_of(check: ScaleCheck) -> Verdict:
    """The check judged by the division and the kind of tolerance that it was made with."""
    test, shown, division = (
        weights.read(text, check.unit) for text in (check.test_weight, check.shown, check.division)
    )
    return judged(test, shown, division, check.new)
