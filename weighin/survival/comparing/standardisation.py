"""One rate for a stated mix of conditions, so that a cool season is not taken for good care."""

from collections.abc import Hashable, Mapping
from math import isfinite, sqrt
from typing import TypeVar

from weighin.survival.estimates import Estimate, Rated, common_level, recovered
from weighin.survival.intervals import Interval

Label = TypeVar("Label", bound=Hashable)


def standardise(rates: Mapping[Label, Rated], mix: Mapping[Label, float]) -> Estimate:
    """The rate that the strata's rates would give under a reference mix (direct standardisation).

    Parameters
    ----------
    rates : mapping of stratum to Rated
        The rate of each stratum (a band of water temperatures, say) with its limits, all at one level.
    mix : mapping of stratum to float
        The reference: fish of each stratum, or shares; 0 or more, in any total.

    Returns
    -------
    Estimate
        Sum of w_k p_k with w_k the shares of the mix. Its standard error is that of the sum; its limits are
        recovered from the strata's own, so a stratum without dead fish still adds its doubt.

    Raises
    ------
    ValueError
        When the mix is empty, negative or not finite, or asks for a stratum that has no rate (a rate for
        water never fished would be invented: take it out of the mix), or levels differ.

    References
    ----------
    Fleiss, J. L., Levin, B. & Paik, M. C. (2003), Statistical Methods for Rates and Proportions, ch. 19;
    limits after Zou, G. Y., Huang, W. & Zhang, X. (2009), Comput. Stat. Data Anal. 53, 1080-1085.

    Examples
    --------
    A cool season, put to a mix with as many hot fish as cool ones:

    >>> from weighin.survival.clusters import clustered
    >>> season = {"under 75 F": clustered([2, 1, 3], [150, 160, 140]), "above": clustered([4, 3], [50, 48])}
    >>> even = standardise(season, {"under 75 F": 1, "above": 1})
    >>> round(13 / 548, 4), round(even.rate, 4)
    (0.0237, 0.0424)
    """
    wanted = {stratum: float(weight) for stratum, weight in mix.items() if weight != 0}
    if not wanted or not all(weight > 0.0 and isfinite(weight) for weight in wanted.values()):
        raise ValueError("a mix is fish or shares of each stratum, 0 or more and not all 0: check the reference")
    missing = [str(stratum) for stratum in wanted if stratum not in rates]
    if missing:
        raise ValueError(f"no fish were looked at in {', '.join(missing)}: take that out of the reference mix")
    used = [(rates[stratum], weight / sum(wanted.values())) for stratum, weight in wanted.items()]
    level = common_level(*(rate for rate, _ in used))
    limits = recovered([(w * rate.rate, Interval(w * rate.low, w * rate.high)) for rate, w in used])
    return Estimate(
        rate=sum(w * rate.rate for rate, w in used),
        standard_error=sqrt(sum((w * rate.standard_error) ** 2 for rate, w in used)),
        low=max(0.0, limits.low),
        high=min(1.0, limits.high),
        level=level,
    )
