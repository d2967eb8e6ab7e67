"""A logistic curve of the death rate over temperature, hours held, fish on board or years.

Temperature is a fact of an event, not of a fish: eight events are eight points, however many fish they had.
So the curve's errors are those between groups, corrected for few of them, a curve over fewer than eight
groups is refused, and so is any value outside what was seen.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence, Sized
from dataclasses import dataclass
from math import exp, log, sqrt
from typing import TYPE_CHECKING, overload

from weighin.survival.clusters import checked_clusters
from weighin.survival.intervals import Interval
from weighin.survival.quantiles import normal, student

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

Rows = Sequence[float] | Sequence[Sequence[float]]  # a number for each row, or a row of numbers

FEWEST_GROUPS = 8  # for a curve: fewer points let one hot day draw it
_STEPS = 50


class NoCurve(ValueError):
    """The data cannot support a curve, or not one at this value; the message says why and what to do."""


@dataclass(frozen=True)
class LogisticFit:
    """A fitted curve: log(p / (1 - p)) = coefficients[0] + coefficients[1] x (+ ... for more columns).

    Attributes
    ----------
    coefficients, standard_errors : tuple of float
        Constant first, then one for each column of x, per unit of x. Standard errors allow for groups when
        given.
    covariance : tuple of tuple of float
        Of the coefficients, in the same order.
    deviance : float
        Residual deviance of the rows, against one rate for each row.
    pearson : float
        Pearson's chi-square of the rows: sum (d - n p)^2 / (n p (1 - p)).
    groups : int or None
        Groups with fish, or None when the rows were taken as independent.
    df : int or None
        Degrees of freedom of the t for limits (groups less coefficients), None for the normal.
    seen : tuple of Interval
        Smallest and largest x with fish, one for each column: the curve holds there only.
    """

    coefficients: tuple[float, ...]
    standard_errors: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    deviance: float
    pearson: float
    groups: int | None
    df: int | None
    seen: tuple[Interval, ...]
    _centre: tuple[float, ...]
    _centred_constant: float
    _centred_covariance: tuple[tuple[float, ...], ...]

    @property
    def is_curve(self) -> bool:
        """Whether there are groups enough to draw a curve; below it only the coefficients are given."""
        return self.groups is None or self.groups >= FEWEST_GROUPS

    @overload
    def predict(self, x: float) -> float: ...
    @overload
    def predict(self, x: Rows) -> list[float]: ...
    def predict(self, x: float | Rows) -> float | list[float]:
        """The fitted rate as a share: of one x a number, of several (shaped as they were fitted) a list.

        Raises
        ------
        NoCurve
            Under eight groups, or when an x lies outside what was seen.
        """
        rates = [_share(self._log_odds(point)) for point in self._points(x)]
        return rates if isinstance(x, Sized) else rates[0]

    @overload
    def band(self, x: float, level: float = 0.95) -> Interval: ...
    @overload
    def band(self, x: Rows, level: float = 0.95) -> list[Interval]: ...
    def band(self, x: float | Rows, level: float = 0.95) -> Interval | list[Interval]:
        """Limits of the fitted rate, point by point, as shares; takes and refuses what `predict` does."""
        quantile, limits = self.quantile(level), []
        for point in self._points(x):
            middle, half = self._log_odds(point), quantile * self._error(point)
            limits.append(Interval(_share(middle - half), _share(middle + half)))
        return limits if isinstance(x, Sized) else limits[0]

    def x_at(self, p: float) -> float:
        """The x at which the curve reaches the rate `p` (0 < p < 1); one column only.

        Raises
        ------
        NoCurve
            Under eight groups, or when the curve does not reach p within what was seen.
        ValueError
            When p is out of range or the fit has several columns.
        """
        if len(self.coefficients) != 2:
            raise ValueError("several columns reach a rate in many ways: fit the one of interest alone")
        if not 0.0 < p < 1.0:
            raise ValueError(f"a rate to reach lies between 0 and 1, not {p!r}: give 0.05 for 5 %")
        slope = self.coefficients[1]
        x = self._centre[0] + (log(p / (1.0 - p)) - self._centred_constant) / slope if slope else float("inf")
        try:
            self._points(x)
        except NoCurve as refused:
            raise NoCurve(f"the curve does not reach {p:.3g} within what was seen: {refused}") from None
        return x

    def odds_ratio(self, column: int = 1, level: float = 0.95) -> tuple[float, Interval]:
        """The factor on the odds of dying for one unit more of a column (1 is the first), and its limits."""
        value, half = self.coefficients[column], self.quantile(level) * self.standard_errors[column]
        return exp(value), Interval(exp(value - half), exp(value + half))

    def quantile(self, level: float = 0.95) -> float:
        """How many standard errors the limits lie out."""
        return normal(level) if self.df is None else student(self.df, level)

    def _log_odds(self, point: tuple[float, ...]) -> float:
        slopes = zip(self.coefficients[1:], point, self._centre, strict=True)
        return self._centred_constant + sum(slope * (value - centre) for slope, value, centre in slopes)

    def _error(self, point: tuple[float, ...]) -> float:
        """Standard error of the log odds at a point."""
        offset = (1.0, *(value - centre for value, centre in zip(point, self._centre, strict=True)))
        rows = zip(offset, self._centred_covariance, strict=True)
        variance = sum(a * b * c for a, row in rows for b, c in zip(offset, row, strict=True))
        return sqrt(max(0.0, variance))

    def _points(self, x: float | Rows) -> list[tuple[float, ...]]:
        """The points of x, or NoCurve where the curve may not be read."""
        if not self.is_curve:
            raise NoCurve(
                f"{self.groups} groups are too few for a curve: show their rates one by one until there are "
                f"{FEWEST_GROUPS}"
            )
        points = [_row(entry) for entry in (x if isinstance(x, Sized) else [x])]
        for point in points:
            if len(point) != len(self.seen):
                raise ValueError(f"a point of this fit has {len(self.seen)} numbers, not {len(point)}")
            for value, seen in zip(point, self.seen, strict=True):
                slack = 1e-9 * max(1.0, abs(seen.low), abs(seen.high))
                if not seen.low - slack <= value <= seen.high + slack:
                    raise NoCurve(
                        f"{value:g} lies outside the {seen.low:g} to {seen.high:g} that was seen: "
                        "nothing is known there"
                    )
        return points


def fit_logistic(
    x: Rows,
    dead: Sequence[float],
    n: Sequence[float],
    groups: Sequence[Hashable] | None = None,
    correction: str = "mancl-derouen",
) -> LogisticFit:
    """Fit a logistic curve of the death rate on x.

    Parameters
    ----------
    x : sequence of float, or of sequences of float
        One number for each row (a team's catch, or an event), or one row of numbers when several things
        matter; in any unit, finite.
    dead, n : sequence of float
        Dead fish and fish of each row, 0 <= dead <= n; rows without fish are ignored.
    groups : sequence, optional
        The group of each row (an event, wherever x is a fact of the event): standard errors then come from
        the spread between groups. Without it rows are independent binomial counts, which fish of a livewell
        are not.
    correction : {"mancl-derouen", "none"}
        The correction of the sandwich for few groups; "none" is the plain sandwich, for comparison with other
        programs.

    Returns
    -------
    LogisticFit

    Raises
    ------
    NoCurve
        When no or all fish died, x does not vary, a value of x parts the dead from the living completely, or
        there are no more groups than coefficients.
    ValueError
        When lengths differ or a count or x is out of range.

    Notes
    -----
    Maximum likelihood by iteratively reweighted least squares, the rows independent given x (so with groups
    it is the generalised estimating equation with working independence). Variance with groups: A (sum B_g
    B_g') A with A = (X'WX)^-1 and B_g = (I - X_g'W_g X_g A)^-1 X_g'(d_g - mu_g); limits with Student's t of
    groups less coefficients degrees of freedom.

    References
    ----------
    McCullagh, P. & Nelder, J. A. (1989), Generalized Linear Models, ch. 4; Liang, K.-Y. & Zeger, S. L.
    (1986), Biometrika 73, 13-22; Mancl, L. A. & DeRouen, T. A. (2001), Biometrics 57, 126-134.

    Examples
    --------
    Beetles under carbon disulphide (Bliss 1935):

    >>> dose = [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839]
    >>> fit = fit_logistic(dose, [6, 13, 18, 28, 52, 53, 61, 60], [59, 60, 62, 56, 63, 59, 62, 60])
    >>> [round(value, 3) for value in fit.coefficients], [round(value, 3) for value in fit.standard_errors]
    ([-60.717, 34.27], [5.181, 2.912])
    >>> round(fit.x_at(0.5), 4), round(fit.predict(1.8), 3)
    (1.7717, 0.725)
    """
    import numpy as np

    if correction not in ("mancl-derouen", "none"):
        raise ValueError(f"the correction is 'mancl-derouen' or 'none', not {correction!r}")
    if len(x) != len(n) or (groups is not None and len(groups) != len(n)):
        raise ValueError("x, dead, n and groups need one entry for each row: check their lengths")
    d, k = np.array(checked_clusters(dead, n)).T
    fished = np.array(n, dtype=float) > 0.0
    columns = np.array(x, dtype=float).reshape(len(n), -1)[fished]
    labels = None if groups is None else [group for group, kept in zip(groups, fished, strict=True) if kept]
    if not np.isfinite(columns).all():
        raise ValueError("x must be finite numbers: leave out the rows where it was not recorded")
    if d.sum() in (0.0, k.sum()):
        raise NoCurve("no or all fish died: there is nothing for a curve to follow; show the rate and its limits")

    centre, scale = columns.mean(axis=0), columns.std(axis=0)
    if not (scale > 0.0).all():
        raise NoCurve("x is the same in every row: a curve needs it to vary")
    design = np.column_stack([np.ones(len(d)), (columns - centre) / scale])
    inner, bread, fitted = _maximum_likelihood(design, d, k)
    residuals = design * (d - k * fitted)[:, None]
    covariance, held, df = bread, None, None
    if labels is not None:
        members = _members(labels)
        held, df = len(members), len(members) - len(inner)
        if df < 1:
            raise NoCurve(f"{held} groups cannot carry {len(inner)} coefficients: show their rates one by one")
        weights = k * fitted * (1.0 - fitted)
        covariance = _between_groups(design, residuals, weights, bread, members, correction)

    unscale = np.diag(1.0 / np.concatenate([[1.0], scale]))  # back to the units of x, still centred
    centred, spread = unscale @ inner, unscale @ covariance @ unscale
    shift = np.eye(len(inner))
    shift[0, 1:] = -centre
    outer = shift @ spread @ shift.T
    return LogisticFit(
        coefficients=tuple((shift @ centred).tolist()),
        standard_errors=tuple(np.sqrt(np.maximum(np.diag(outer), 0.0)).tolist()),
        covariance=_rows(outer),
        deviance=_deviance(d, k, fitted),
        pearson=float(((d - k * fitted) ** 2 / (k * fitted * (1.0 - fitted))).sum()),
        groups=held,
        df=df,
        seen=tuple(Interval(float(c.min()), float(c.max())) for c in columns.T),
        _centre=tuple(centre.tolist()),
        _centred_constant=float(centred[0]),
        _centred_covariance=_rows(spread),
    )


def _maximum_likelihood(design: Floats, dead: Floats, n: Floats) -> tuple[Floats, Floats, Floats]:
    """Coefficients, their model covariance and the fitted rates."""
    import numpy as np

    beta: Floats = np.zeros(design.shape[1])
    beta[0] = np.log(dead.sum() / (n.sum() - dead.sum()))
    for _ in range(_STEPS):
        fitted = 1.0 / (1.0 + np.exp(-np.clip(design @ beta, -35.0, 35.0)))
        weights = n * fitted * (1.0 - fitted)
        information = design.T @ (design * weights[:, None])
        if np.linalg.cond(information) > 1e12:
            break
        step = np.linalg.solve(information, design.T @ (dead - n * fitted))
        beta = beta + step
        if np.abs(step).max() < 1e-9:
            return beta, np.asarray(np.linalg.inv(information), dtype=np.float64), fitted
    raise NoCurve(
        "x parts the dead from the living completely, or its columns say the same thing twice: a curve "
        "cannot be fitted; leave a column out or show the rates by group"
    )


def _between_groups(
    design: Floats,
    residuals: Floats,
    weights: Floats,
    bread: Floats,
    members: list[list[int]],
    correction: str,
) -> Floats:
    """The sandwich: the coefficients' covariance from how groups, not fish, scatter about the curve."""
    import numpy as np

    place = np.empty(len(design), dtype=int)
    for number, rows in enumerate(members):
        place[rows] = number
    scores: Floats = np.zeros((len(members), design.shape[1]))
    np.add.at(scores, place, residuals)
    if correction == "mancl-derouen":
        information = np.zeros((len(members), *bread.shape))
        np.add.at(information, place, design[:, :, None] * (design * weights[:, None])[:, None, :])
        scores = np.asarray(np.linalg.solve(np.eye(len(bread)) - information @ bread, scores[:, :, None])[:, :, 0])
    return np.asarray(bread @ (scores.T @ scores) @ bread, dtype=np.float64)


def _members(labels: Sequence[Hashable]) -> list[list[int]]:
    rows: dict[Hashable, list[int]] = {}
    for row, label in enumerate(labels):
        rows.setdefault(label, []).append(row)
    return list(rows.values())


def _deviance(dead: Floats, n: Floats, fitted: Floats) -> float:
    import numpy as np

    with np.errstate(divide="ignore", invalid="ignore"):
        gone = np.where(dead > 0.0, dead * np.log(dead / (n * fitted)), 0.0)
        left = np.where(dead < n, (n - dead) * np.log((n - dead) / (n * (1.0 - fitted))), 0.0)
    return float(2.0 * (gone + left).sum())


def _rows(matrix: Floats) -> tuple[tuple[float, ...], ...]:
    return tuple(tuple(row) for row in matrix.tolist())


def _row(entry: float | Sequence[float]) -> tuple[float, ...]:
    return tuple(map(float, entry)) if isinstance(entry, Sized) else (float(entry),)


def _share(log_odds: float) -> float:
    return 1.0 / (1.0 + exp(-max(-700.0, min(700.0, log_odds))))
