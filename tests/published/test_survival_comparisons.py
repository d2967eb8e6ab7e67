"""Trends, comparisons and small events against published figures, the source beside each."""

import numpy as np
import pytest
import statsmodels.api as sm

from weighin.survival.bend import bend_test
from weighin.survival.clusters import clustered
from weighin.survival.comparing.change import change
from weighin.survival.comparing.comparison import Group, Stratum, crude, homogeneity, mantel_haenszel
from weighin.survival.logistic import fit_logistic
from weighin.survival.shrinkage import Scatter
from weighin.survival.sizes.sample_size import fish_for_upper_limit
from weighin.survival.trend import cochran_armitage


def test_bliss_1935_beetles():
    """Bliss (1935), Ann. Appl. Biol. 22, 134; the fit as R and textbooks print it.

    R prints the standard errors 5.180701 and 2.912134, of the weights one step before its stop; at the
    maximum itself they are 5.180711 and 2.912140 (statsmodels alike).
    """
    dose = [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839]
    n, dead = [59, 60, 62, 56, 63, 59, 62, 60], [6, 13, 18, 28, 52, 53, 61, 60]
    fit = fit_logistic(dose, dead, n)
    assert fit.coefficients == pytest.approx((-60.717455, 34.270326), abs=5e-7)
    assert fit.standard_errors == pytest.approx((5.180701, 2.912134), rel=2.5e-6)
    assert fit.standard_errors == pytest.approx((5.180711, 2.912140), abs=5.1e-7)
    assert fit.deviance == pytest.approx(11.232231, abs=5e-7)
    assert fit.x_at(0.5) == pytest.approx(1.771721, abs=5e-7)  # computed from the coefficients


def test_bliss_1935_asks_for_a_bend():
    """The straight logit's deviance of 11.23 on 6 df is the known misfit of these data; with a square of the dose
    it is 3.19 on 5 (computed with statsmodels; the textbooks go over to the complementary log-log for the same reason).
    """
    dose = np.array([1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839])
    n, dead = np.array([59, 60, 62, 56, 63, 59, 62, 60]), np.array([6, 13, 18, 28, 52, 53, 61, 60])
    columns = np.column_stack([dose, (dose - dose.mean()) ** 2])
    straight, bent = fit_logistic(dose, dead, n), fit_logistic(columns, dead, n)
    glm = sm.GLM(np.column_stack([dead, n - dead]), sm.add_constant(columns), family=sm.families.Binomial()).fit()
    assert bent.deviance == pytest.approx(glm.deviance, rel=1e-7)
    assert bent.deviance == pytest.approx(3.1949, abs=5e-5)
    assert bent.pearson == pytest.approx(glm.pearson_chi2, rel=1e-6)
    test = bend_test(straight, bent, 8)
    assert (round(straight.deviance, 2), round(test.f, 2)) == (11.23, 8.04)
    assert test.is_clear and test.p == pytest.approx(0.0365, abs=5e-5)


def test_alcohol_and_malformation():
    """Agresti (2002), Categorical Data Analysis, table 3.7 (number from memory); z and p computed from it."""
    trend = cochran_armitage([0, 0.5, 1.5, 4, 7], [48, 38, 5, 1, 1], [17114, 14502, 793, 127, 38])
    assert trend.z == pytest.approx(2.5632, abs=5.1e-5)
    assert trend.p == pytest.approx(0.01037, abs=5.1e-6)
    assert trend.z**2 == pytest.approx(6.6, abs=0.05)


def test_weil_1970_litters_with_working_independence():
    """Weil's litters (see test_survival_rates) as a two-group curve, against statsmodels' GEE."""
    control = "13/13 12/12 9/9 9/9 8/8 8/8 12/13 11/12 9/10 9/10 8/9 11/13 4/5 5/7 7/10 7/10"
    treated = "12/12 11/11 10/10 9/9 10/11 9/10 9/10 8/9 8/9 4/5 7/9 4/7 5/10 3/6 3/10 0/7"
    pairs = [tuple(map(int, litter.split("/"))) for litter in f"{control} {treated}".split()]
    alive, born = np.array(pairs).T
    group = np.repeat([0, 1], 16)
    ours = fit_logistic(group, alive, born, range(32), correction="none")
    rows = np.repeat(range(32), born)
    lived = np.concatenate([np.r_[np.ones(a), np.zeros(b - a)] for a, b in pairs])
    gee = sm.GEE(lived, sm.add_constant(group[rows]), groups=rows, family=sm.families.Binomial()).fit()
    assert ours.coefficients == pytest.approx(gee.params, rel=1e-7)
    assert ours.standard_errors == pytest.approx(gee.bse, rel=1e-6)
    # Rao & Scott's design effects follow from the same sandwich, but for their factor m/(m-1).
    for k, (design_effect, odds) in enumerate([(1.2325, 142 / 16), (3.9529, 112 / 33)]):
        part = [pair for pair, g in zip(pairs, group, strict=True) if g == k]
        found = clustered([b - a for a, b in part], [b for _, b in part])
        assert found.design_effect_seen == pytest.approx(design_effect, abs=5.1e-5)
        assert (found.n - found.dead) / found.dead == pytest.approx(odds)
    log_odds = [np.log(142 / 16), np.log(112 / 33)]
    assert ours.coefficients == pytest.approx((log_odds[0], log_odds[1] - log_odds[0]), rel=1e-9)


def test_ice_is_used_on_hot_days():
    """Our own example, computed: the crude ratio blames the ice; every stratum and the pooled one do not."""
    cool = Stratum("cool", practice=Group(1, 20), without=Group(9, 150))
    hot = Stratum("hot", practice=Group(18, 150), without=Group(5, 30))
    assert crude([cool, hot]).value == pytest.approx(1.49, abs=5e-3)
    assert (cool.odds_ratio, hot.odds_ratio) == pytest.approx((0.82, 0.68), abs=5e-3)
    pooled = mantel_haenszel([cool, hot])
    assert pooled.value == pytest.approx(0.713, abs=5e-4)
    assert (pooled.low, pooled.high) == pytest.approx((0.27, 1.89), abs=5e-3)


def test_berkeley_admissions():
    """Bickel, Hammel & O'Connell (1975), Science 187, 398; mantelhaen.test in R: .9047 (.7719-1.0603).

    Data and figures from memory of R's documentation. The trade's trap in a famous dress: crude 1.84, pooled
    0.90.
    """
    departments = {
        "A": ((512, 825), (89, 108)),
        "B": ((353, 560), (17, 25)),
        "C": ((120, 325), (202, 593)),
        "D": ((138, 417), (131, 375)),
        "E": ((53, 191), (94, 393)),
        "F": ((22, 373), (24, 341)),
    }
    strata = [Stratum(name, Group(*men), Group(*women)) for name, (men, women) in departments.items()]
    pooled = mantel_haenszel(strata)
    assert pooled.value == pytest.approx(0.9046968, abs=5e-7)
    assert (pooled.low, pooled.high) == pytest.approx((0.7719074, 1.0603298), abs=5e-7)
    assert crude(strata).value == pytest.approx(1.84, abs=5e-3)


def test_ille_et_vilaine_alcohol_and_oesophageal_cancer():
    """Breslow & Day (1980), section 4.4: six age groups, pooled 5.158, homogeneity about 9.3 on 5 df.

    From memory, agreeing with statsmodels.
    """
    ages = [
        ("25-34", (1, 10), (0, 106)),
        ("35-44", (4, 30), (5, 169)),
        ("45-54", (25, 54), (21, 159)),
        ("55-64", (42, 69), (34, 173)),
        ("65-74", (19, 37), (36, 124)),
        ("75+", (5, 5), (8, 39)),
    ]
    strata = [Stratum(age, Group(*heavy), Group(*light)) for age, heavy, light in ages]
    assert mantel_haenszel(strata).value == pytest.approx(5.158, abs=5e-4)
    assert homogeneity(strata) == pytest.approx(0.097, abs=2e-3)


# Newcombe, R. G. (1998), Stat. Med. 17, 873-890, table II, method 10; from memory of the table, recomputed.
@pytest.mark.parametrize(
    ("after", "before", "low", "high"),
    [
        ((56, 70), (48, 80), 0.0524, 0.3339),
        ((9, 10), (3, 10), 0.1705, 0.8090),
        ((6, 7), (2, 7), 0.0582, 0.8062),
        ((5, 56), (0, 29), -0.0381, 0.1926),
        ((0, 10), (0, 20), -0.1611, 0.2775),
        ((0, 10), (0, 10), -0.2775, 0.2775),
        ((10, 10), (0, 20), 0.6791, 1.0000),
        ((10, 10), (0, 10), 0.6075, 1.0000),
    ],
)
def test_newcombe_1998_differences(after, before, low, high):
    by_fish = [clustered([dead], [n], correlation=0.0) for dead, n in (before, after)]
    ours = change(*by_fish)
    assert (ours.low, ours.high) == pytest.approx((low, high), abs=5.1e-5)


# Tarone (1982), as in Gelman et al., Bayesian Data Analysis, table 5.1: 70 earlier groups; data from memory,
# and they give the book's moments.
TUMOURS = """
0/20 0/20 0/20 0/20 0/20 0/20 0/20 0/19 0/19 0/19 0/19 0/18 0/18 0/17 1/20 1/20 1/20 1/20 1/19 1/19 1/18 1/18
2/25 2/24 2/23 2/20 2/20 2/20 2/20 2/20 2/20 1/10 5/49 2/19 5/46 3/27 2/17 7/49 7/47 3/20 3/20 2/13 9/48 10/50
4/20 4/20 4/20 4/20 4/20 4/20 4/20 10/48 4/19 4/19 4/19 5/22 11/46 12/49 5/20 5/20 6/23 5/19 6/22 6/20 6/20
6/20 16/52 15/47 15/46 9/24
"""


def test_rat_tumours():
    """BDA section 5.1: moments of the rates give alpha 1.4, beta 8.6; a new 4 of 14 becomes 0.223 (0.083)."""
    rates = [int(dead) / int(n) for dead, n in (group.split("/") for group in TUMOURS.split())]
    assert len(rates) == 70
    mean, sd = np.mean(rates), np.std(rates, ddof=1)
    assert (mean, sd) == pytest.approx((0.1360, 0.1035), abs=5.1e-5)
    groups = Scatter.from_moments(mean, sd)
    assert (groups.alpha, groups.beta) == pytest.approx((1.356, 8.615), abs=5.1e-4)
    new = groups.update(4, 14)
    assert (new.rate, new.sd) == pytest.approx((0.2234, 0.0834), abs=5.1e-5)


@pytest.mark.parametrize("upper", [0.01, 0.03, 0.05])
def test_the_rule_of_three(upper):
    """Hanley & Lippman-Hand (1983), J. Am. Med. Assoc. 249, 1743: none in n leaves up to 3 / n, one-sided."""
    assert fish_for_upper_limit(upper) == pytest.approx(3 / upper, rel=0.02)
