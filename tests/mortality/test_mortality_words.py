"""What is said of none, one, some and all dead; never a rate without its range."""

import doctest
import importlib

import pytest

from weighin.mortality.domain import words
from weighin.survival.clusters import clustered
from weighin.survival.delayed import abbott, uncorrected
from weighin.survival.estimates import Estimate

MODULES = [
    "domain.words",
    "queries.missing",
    "domain.lake",
    "domain.temperature_curve",
    "pages.season_words",
    "pages.caveats",
]
NBSP = "\u00a0"


@pytest.mark.parametrize("name", MODULES)
def test_worked_examples(name):
    module = importlib.import_module(f"weighin.mortality.{name}")
    assert doctest.testmod(module, optionflags=doctest.NORMALIZE_WHITESPACE).failed == 0


def test_the_head_of_an_event_gives_count_and_rate():
    wells = [(7, 0)] * 57 + [(7, 5), (6, 6)]
    rate = clustered([d for _, d in wells], [n for n, _ in wells])
    assert words.finding(rate, 11, 412) == f"11 of 412 fish brought to the scales were dead: 2.7{NBSP}% seen"
    assert words.range_said(rate, 11, 412, 59) == (
        f"95{NBSP}% range {100 * rate.low:.1f} to {100 * rate.high:.1f}{NBSP}%, by livewell, whose fish tend to die "
        "together. Fish that died unseen are not in it."
    )


def test_none_dead_is_never_no_mortality():
    rate = clustered([0] * 6, [7] * 5 + [5])
    assert words.finding(rate, 0, 40) == "None of 40 fish brought to the scales was dead"
    said = words.range_said(rate, 0, 40, 6)
    assert said == (
        f"That is not the same as no mortality: with 40 fish the true rate may still be anything up to 26.2{NBSP}%."
    )
    assert "no dead tell little, so a correlation of 0.2 within a livewell is assumed" in words.clusters_said(
        40, 6, rate.design_effect, 0
    )
    assert words.limits(rate) == f"up to 26.2{NBSP}%"


def test_all_dead_and_one_fish():
    seven = clustered([7], [7])
    assert words.finding(seven, 7, 7) == "All 7 fish brought to the scales were dead"
    assert words.range_said(seven, 7, 7, 1) == f"The true rate may be anything from 45.3{NBSP}% upward."
    assert words.limits(seven) == f"45.3{NBSP}% and more"
    one = clustered([0], [1])
    assert words.finding(one, 0, 1) == "The one fish brought to the scales was alive"
    assert words.range_said(one, 0, 1, 1).endswith(
        f"with one fish the true rate may still be anything up to 79.3{NBSP}%."
    )


def test_one_livewell_is_said_to_tell_little():
    rate = clustered([2], [7])
    assert "one livewell tells little" in words.clusters_said(7, 1, rate.design_effect, 2)


def test_the_design_effect_is_explained_by_fish():
    # Ten teams of seven, dead 0 x7, 1, 2, 5: 3.70 seen, drawn to (8 x 3.70 + 3 x 2.2) / 11.
    rate = clustered([0] * 7 + [1, 2, 5], [7] * 10)
    said = words.clusters_said(70, 10, rate.design_effect, 8)
    assert "70 tell about as much as 21 held one by one would (design effect 3.3)" in said


@pytest.mark.parametrize(
    "low,rate,high,said",
    [
        (0.11, 0.2, 0.3, "Clearly above our stop level of 10 %."),
        (0.01, 0.04, 0.1, "Clearly below our stop level of 10 %."),
        (
            0.05,
            0.12,
            0.3,
            "Above our stop level of 10 %, which may be chance: the range reaches below it.",
        ),
        (
            0.05,
            0.08,
            0.3,
            "No clear difference from our stop level of 10 %: the range reaches beyond it.",
        ),
    ],
)
def test_against_the_stop_level(low, rate, high, said):
    assert words.against_stop(Estimate(rate, 0.0, low, high), 0.1).replace(NBSP, " ") == said


def test_delayed_mortality_in_words():
    said = words.delayed_said(abbott(15, 50, 6, 53), "reference")
    assert said.startswith(f"21.1{NBSP}%, between ")
    fewer = words.delayed_said(abbott(1, 40, 5, 40), "reference")
    assert fewer.startswith("no increase shown; the range reaches up to ")
    assert words.delayed_said(None, None) == "not known"
    assert words.delayed_said(uncorrected(0, 20), "no_reference").startswith("none seen; up to ")


@pytest.mark.parametrize("share", [0.00001, 0.0004, 0.0005, 0.5, 0.9994, 0.99999])
def test_some_is_never_rounded_to_none_or_all(share):
    assert words.percent(share) not in (f"0.0{NBSP}%", f"0{NBSP}%", f"100.0{NBSP}%", f"100{NBSP}%")


@pytest.mark.parametrize(
    "share,said",
    [
        (0.0602, "one fish in seventeen was"),
        (0.004, "one fish in 250 was"),
        (0.5, "five fish in ten were"),
        (0.24, "one fish in four was"),
    ],
)
def test_a_share_as_a_fraction(share, said):
    assert words.about(share) == f"About {said}"
