"""Contrast of the three lights, worked out from the tokens by the WCAG 2.2 formula.

Source: WCAG 2.2, definitions of relative luminance and contrast ratio, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio
"""

import re
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders

TOKENS = Path(finders.find("weighin/css/site/tokens.css")).read_text()
LIGHTS = ("paper", "sun", "night")


def tokens(light: str) -> dict[str, str]:
    start = ":root {" if light == "paper" else f'[data-light="{light}"] {{'
    block = TOKENS[TOKENS.index(start) :].partition("}")[0]
    return dict(re.findall(r"--([\w-]+):\s*(#[0-9A-Fa-f]{6})", block))


def luminance(colour: str) -> float:
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_by_its_own_ends():
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.48, abs=0.005)


# Text 7:1 on the paper and 4.5:1 elsewhere; lines to write on and buttons 3:1 (WCAG 1.4.3, 1.4.6, 1.4.11).
@pytest.mark.parametrize("light", LIGHTS)
@pytest.mark.parametrize(
    "front,ground,least",
    [
        ("ink", "paper", 7), ("ink-2", "paper", 7), ("pen", "paper", 7), ("paper", "ink", 7),
        ("ink", "sheet", 7), ("pen", "sheet", 7), ("ink", "wash", 7),
        ("ink-2", "wash", 4.5), ("pen", "wash", 4.5),
        ("on-act", "act", 4.5), ("rule-2", "paper", 3), ("act", "paper", 3),
    ],
)  # fmt: skip
def test_words_and_lines_stand_out(light, front, ground, least):
    colours = tokens(light)
    assert contrast(colours[front], colours[ground]) >= least


def test_sun_is_black_on_white_and_heavier():
    sun = TOKENS[TOKENS.index('[data-light="sun"]') :].partition("}")[0]
    assert tokens("sun")["ink"] == "#000000" and tokens("sun")["paper"] == "#FFFFFF"
    assert "--weight-text: 500" in sun and "--heavy: 6px" in sun
