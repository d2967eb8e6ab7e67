"""A kept check judged."""

from weighin.rules import weights
from weighin.scale.models import ScaleCheck
from weighin.scale.tolerance import Verdict, judged


def verdict_of(check: ScaleCheck) -> Verdict:
    """The check judged by the division and the kind of tolerance that it was made with."""
    test, shown, division = (
        weights.read(text, check.unit) for text in (check.test_weight, check.shown, check.division)
    )
    return judged(test, shown, division, check.new)
