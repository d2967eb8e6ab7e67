"""Whether a death rate bends with temperature, and the curve to read afterwards.

A straight logit makes the odds of dying grow by the same factor at every degree. Fish need not keep to it: little
happens in cool water and much above some temperature. So a second curve, which may bend at one temperature named
beforehand, is fitted beside the straight one and taken only where it fits better than chance explains.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from weighin.survival.intervals import Interval
from weighin.survival.logistic import LogisticFit, NoCurve, fit_logistic

FEWEST_EACH_SIDE = 3  # groups on either side of the bend: with two, one day would draw the whole of that side
CLEAR = 0.05
_HALVINGS = 60


@dataclass(frozen=True)
class BendTest:
    """The F test of the bend: its statistic with 1 and ``df`` degrees of freedom, the dispersion used, and its p."""

    f: float
    df: int
    dispersion: float
    p: float

    @property
    def is_clear(self) -> bool:
        return self.p < CLEAR


@dataclass(frozen=True)
class Curve:
    """A death rate over one quantity x, straight or bent on the scale of log odds.

    ``fit`` is of x, or, when ``bend_at`` is given, of x up to the bend and of x beyond it (`hinged`). ``test`` is the
    test that chose between them, None where no bend could be tried, for which ``why_untried`` gives the reason.
    """

    fit: LogisticFit
    seen: Interval
    bend_at: float | None = None
    test: BendTest | None = None
    why_untried: str = ""

    def predict(self, x: float) -> float:
        """The fitted rate at x as a share. Raises NoCurve outside what was seen."""
        return self.fit.predict(self._columns(x))[0]

    def band(self, x: float, level: float = 0.95) -> Interval:
        """Limits of the fitted rate at x. Raises NoCurve outside what was seen."""
        return self.fit.band(self._columns(x), level)[0]

    def x_at(self, p: float) -> float:
        """The lowest x from which the curve rises through the rate ``p`` (0 < p < 1).

        Raises NoCurve when it does not within what was seen.
        """
        corners = [self.seen.low, *([self.bend_at] if self.bend_at is not None else []), self.seen.high]
        for low, high in pairwise(corners):
            if self.predict(low) <= p <= self.predict(high):
                for _ in range(_HALVINGS):
                    middle = (low + high) / 2.0
                    low, high = (middle, high) if self.predict(middle) < p else (low, middle)
                return high
        raise NoCurve(f"the curve does not rise through {p:.3g} between {self.seen.low:g} and {self.seen.high:g}")

    def odds_ratio(self, level: float = 0.95) -> tuple[float, Interval]:
        """The factor on the odds of dying for one unit of x more, beyond the bend where there is one; with limits."""
        return self.fit.odds_ratio(1 if self.bend_at is None else 2, level)

    def odds_ratio_before(self, level: float = 0.95) -> tuple[float, Interval] | None:
        """The same below the bend; None for a straight curve."""
        return None if self.bend_at is None else self.fit.odds_ratio(1, level)

    def _columns(self, x: float) -> list[list[float]]:
        if not self.seen.low - 1e-9 <= x <= self.seen.high + 1e-9:
            raise NoCurve(f"{x:g} lies outside the {self.seen.low:g} to {self.seen.high:g} that was seen")
        return [[x]] if self.bend_at is None else [hinged(x, self.bend_at)]


def hinged(x: float, at: float) -> list[float]:
    """x as two columns: up to the bend, and beyond it. Their slopes are those on either side."""
    return [min(x, at), max(0.0, x - at)]


def bend_test(straight: LogisticFit, bent: LogisticFit, rows: int) -> BendTest:
    """Whether a fit with one column more fits better than chance explains.

    Parameters
    ----------
    straight, bent : LogisticFit
        Both of the same rows; the bent one with one more column.
    rows : int
        Rows with fish, each its own group (an event).

    Raises
    ------
    ValueError
        When the fits do not differ by one column, or no degree of freedom is left.

    Notes
    -----
    F = (deviance of the straight fit - deviance of the bent one) / dispersion on 1 and df degrees of freedom, df = rows
    less the bent fit's coefficients; the dispersion is Pearson's chi-square of the bent fit over df, at least 1. So
    events that scatter about the curve by more than their fish one by one would (livewells dying together, a wind on
    the day) are allowed for (quasi-likelihood).

    Simulated with eight events of 27 livewells of 6 fish about a straight curve, correlation within livewells 0-0.3 and
    events scattering by a standard deviation of 0-0.5 of the log odds: a bend is found wrongly in 1.1 to 5.7 % at the
    5 % level. Without the dispersion's own uncertainty (a chi-square in place of the F) it would be up to 11.5 %.

    References
    ----------
    McCullagh, P. & Nelder, J. A. (1989), Generalized Linear Models, sections 4.5 and 9.2; Williams, D. A. (1982),
    Appl. Stat. 31, 144-148 (extra-binomial variation).

    Examples
    --------
    Beetles (Bliss 1935), whom a straight logit is known to misfit (deviance 11.23 on 6 degrees of freedom):

    >>> dose = [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839]
    >>> counts = [6, 13, 18, 28, 52, 53, 61, 60], [59, 60, 62, 56, 63, 59, 62, 60]
    >>> straight = fit_logistic(dose, *counts)
    >>> bent = fit_logistic([[x, (x - 1.8) ** 2] for x in dose], *counts)
    >>> test = bend_test(straight, bent, 8)
    >>> round(straight.deviance, 2), round(bent.deviance, 2), round(test.f, 2), round(test.p, 4)
    (11.23, 3.19, 8.04, 0.0365)
    """
    from scipy.special import fdtrc

    df = rows - len(bent.coefficients)
    if len(bent.coefficients) != len(straight.coefficients) + 1 or df < 1:
        raise ValueError(
            f"{rows} rows cannot tell these fits apart: the bent one needs one column more and rows to spare"
        )
    dispersion = max(1.0, bent.pearson / df)
    f = max(0.0, straight.deviance - bent.deviance) / dispersion
    return BendTest(f, df, dispersion, float(fdtrc(1, df, f)))


def fit_curve(
    x: Sequence[float], dead: Sequence[float], n: Sequence[float], groups: Sequence[Hashable], bend_at: float
) -> Curve:
    """The curve of the death rate on x, bent at ``bend_at`` where `bend_test` is clear (p below 0.05).

    Parameters
    ----------
    x, dead, n, groups : sequence
        As for `fit_logistic`: a row for each event, every row its own group.
    bend_at : float
        Where the curve may bend, named before the data were looked at, in the unit of x.

    Raises
    ------
    NoCurve, ValueError
        As for `fit_logistic` of the straight curve.

    Notes
    -----
    No bend is tried with fewer than three groups on either side of it. A second place to bend, or one chosen by the
    data, would need another test.

    Examples
    --------
    >>> warm = [54, 61, 62.5, 71, 77, 80, 83, 86]
    >>> curve = fit_curve(warm, [2, 3, 5, 4, 6, 10, 18, 40], [160] * 8, range(8), bend_at=75)
    >>> curve.bend_at, round(curve.test.p, 3), [round(160 * curve.predict(t), 1) for t in (71, 86)]
    (75, 0.013, [3.5, 37.4])
    """
    straight = fit_logistic(x, dead, n, groups)
    fished = [value for value, fish in zip(x, n, strict=True) if fish]
    seen = straight.seen[0]
    if min(sum(value <= bend_at for value in fished), sum(value > bend_at for value in fished)) < FEWEST_EACH_SIDE:
        return Curve(straight, seen, why_untried=f"fewer than {FEWEST_EACH_SIDE} groups lie on one side of it")
    try:
        bent = fit_logistic([hinged(value, bend_at) for value in x], dead, n, groups)
        test = bend_test(straight, bent, len(fished))
    except NoCurve as refused:
        return Curve(straight, seen, why_untried=str(refused))
    return Curve(bent, seen, bend_at, test) if test.is_clear else Curve(straight, seen, None, test)
