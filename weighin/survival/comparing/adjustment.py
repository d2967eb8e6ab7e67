"""Several care practices in one model, each adjusted for the others: boats with ice are often those with few fish."""

from collections.abc import Hashable, Sequence
from typing import TYPE_CHECKING

from weighin.survival.comparing.comparison import OddsRatio
from weighin.survival.logistic import NoCurve, fit_logistic

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Told = bool | None
FEWEST_GROUPS_EACH = 5  # livewells for every coefficient: with fewer the model follows single boats (ours)


def adjusted_odds(
    practices: Sequence[Sequence[Told]],
    dead: Sequence[int],
    n: Sequence[int],
    strata: Sequence[Hashable],
    groups: Sequence[Hashable],
    level: float = 0.95,
) -> list[OddsRatio | None]:
    """The odds ratio of each practice among days alike, with the other practices held equal.

    Parameters
    ----------
    practices : sequence of sequences of bool or None
        For each practice whether each row went with it; None where nobody wrote it down.
    dead, n : sequence of int
        Dead fish and fish of each row.
    strata : sequence
        The event of each row: only rows of one event are compared.
    groups : sequence
        The livewell of each row: its fish live or die together.
    level : float
        Confidence level, 0 < level < 1.

    Returns
    -------
    list of OddsRatio or None
        In the order of ``practices``. None for one without dead and living fish on both sides, or that the others or the
        events tell already; for all of them with fewer than five livewells for each coefficient, or without a fit.

    Raises
    ------
    ValueError
        When lengths differ or a count is out of range.

    Notes
    -----
    One logistic model of all rows: a constant for each event with dead and living fish, a column for each practice, and
    one for its not being known, so that no fish is left out for want of one record. Rows of an unknown kind in which none
    or all died are left out. Errors between livewells as `fit_logistic` has them. Adjustment holds what was written down
    equal and nothing else.

    References
    ----------
    Hosmer, D. W., Lemeshow, S. & Sturdivant, R. X. (2013), Applied Logistic Regression, 3rd ed., ch. 3-4; Mancl &
    DeRouen (2001).

    Examples
    --------
    A boat with ice had few fish on board, at two events; ice alone looks better than it is:

    >>> ice, few = [True, True, False, False] * 10, [True, False, True, False] * 10
    >>> dead, n = [6, 6, 3, 20, 9, 8, 4, 30] * 5, [90, 40, 30, 80] * 10
    >>> found = adjusted_odds([ice, few], dead, n, ([1] * 4 + [2] * 4) * 5, range(40))
    >>> [round(one.value, 2) for one in found]
    [0.53, 0.35]
    """
    import numpy as np

    if any(len(column) != len(n) for column in (*practices, dead, strata, groups)):
        raise ValueError("practices, dead, n, strata and groups need one entry for each row: check their lengths")
    d, k = np.asarray(dead, dtype=float), np.asarray(n, dtype=float)
    kept = np.isin(np.arange(len(k)), [row for part in _parts(strata).values() if _tells(d, k, part) for row in part])
    usable: list[int] = []
    for column in practices:
        kept &= ~_untelling(column, d, k, kept)
    for place, column in enumerate(practices):
        sides = [[row for row, told in enumerate(column) if told is side and kept[row]] for side in (True, False)]
        if all(_tells(d, k, side) for side in sides):
            usable.append(place)
    rows = [row for row in range(len(k)) if kept[row]]
    design, places = _design([practices[place] for place in usable], [strata[row] for row in rows], rows)
    answer: list[OddsRatio | None] = [None] * len(practices)
    if not places or len({groups[row] for row in rows}) < FEWEST_GROUPS_EACH * (design.shape[1] + 1):
        return answer
    try:
        fit = fit_logistic(design.tolist(), d[rows].tolist(), k[rows].tolist(), [groups[row] for row in rows])
    except NoCurve:
        return answer
    for place, column_at in zip(usable, places, strict=True):
        if column_at is not None:
            value, limits = fit.odds_ratio(column_at + 1, level)
            answer[place] = OddsRatio(value, limits.low, limits.high, level)
    return answer


def _parts(strata: Sequence[Hashable]) -> dict[Hashable, list[int]]:
    found: dict[Hashable, list[int]] = {}
    for row, stratum in enumerate(strata):
        found.setdefault(stratum, []).append(row)
    return found


def _tells(dead: "NDArray[np.float64]", n: "NDArray[np.float64]", rows: Sequence[int]) -> bool:
    """Whether some fish of the rows died and some lived."""
    return bool(0.0 < dead[list(rows)].sum() < n[list(rows)].sum())


def _untelling(
    column: Sequence[Told], dead: "NDArray[np.float64]", n: "NDArray[np.float64]", kept: "NDArray[np.bool_]"
) -> "NDArray[np.bool_]":
    """Rows of which the practice is not known, where none or all of those fish died."""
    import numpy as np

    unknown = np.array([told is None for told in column], dtype=bool)
    rows = np.flatnonzero(unknown & kept).tolist()
    return unknown if rows and not _tells(dead, n, rows) else np.zeros(len(column), dtype=bool)


def _design(
    practices: Sequence[Sequence[Told]], strata: Sequence[Hashable], rows: Sequence[int]
) -> tuple["NDArray[np.float64]", list[int | None]]:
    """The columns that say something new, events first, and where each practice stands among them."""
    import numpy as np

    columns: list[NDArray[np.float64]] = [np.ones(len(rows))]
    across = np.ones((len(rows), 1)) / np.sqrt(max(1, len(rows)))  # what the columns so far span, orthonormal

    def add(column: "NDArray[np.float64]") -> int | None:
        nonlocal across
        rest = column - across @ (across.T @ column)
        rest -= across @ (across.T @ rest)
        if np.linalg.norm(rest) <= 1e-9 * max(1.0, float(np.linalg.norm(column))):
            return None
        across = np.column_stack([across, rest / np.linalg.norm(rest)])
        columns.append(column)
        return len(columns) - 2

    for stratum in list(dict.fromkeys(strata))[1:]:
        add(np.array([one == stratum for one in strata], dtype=float))
    for practice in practices:
        add(np.array([practice[row] is None for row in rows], dtype=float))
    places = [add(np.array([practice[row] is True for row in rows], dtype=float)) for practice in practices]
    if not any(place is not None for place in places):
        return np.empty((len(rows), 0)), []
    return np.column_stack(columns[1:]), places
