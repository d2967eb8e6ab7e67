"""Readings of a scale on the table's page: written into the line that has the focus, and kept with the slip."""

from typing import Any

from browser.scales import document, key, state
from served import Site

RAW = "ST,GS,+00008.44lb"


def reading(page: Any, text: str = "8.44", raw: str = RAW, unit: str = "lb", stable: bool = True) -> dict[str, Any]:
    """Tell the page what a scale reads; what it made of it."""
    told: dict[str, Any] = page.evaluate(
        "(detail) => { document.dispatchEvent(new CustomEvent('weighin:reading', { detail })); return detail; }",
        {"text": text, "unit": unit, "raw": raw, "stable": stable},
    )
    return told


def test_a_reading_is_written_and_its_line_is_kept_with_the_slip(tablet: Any, lake: tuple[Site, str]) -> None:
    tablet.evaluate("addEventListener('weighin:kept', (event) => { window.told = event.detail; }, true)")
    key(tablet, "58", "7", "0", "0")
    assert reading(tablet)["taken"] == "gross"
    assert tablet.input_value("#gross") == "8.44" and "8.44" in tablet.inner_text("#sum .total")
    assert tablet.inner_text("#scale-says") == "From the scale: 8.44."
    key(tablet, "")
    assert reading(tablet, "1.52", "ST,GS,+00001.52lb\r\n")["taken"] == "big_fish"
    key(tablet, "")
    row = state(tablet, 58, "on the server")
    (slip,) = [one for one in document(*lake)["slips"] if one["boat"] == 58]
    assert (slip["gross"], slip["big_fish"]) == ("8.44", "1.52")
    assert slip["note"] == f"Scale, weight: {RAW}; Scale, big fish: ST,GS,+00001.52lb."
    told = tablet.evaluate("window.told")
    assert told["id"] == row.get_attribute("data-id")
    assert [(one["field"], one["text"], one["unit"]) for one in told["readings"]] == [
        ("gross", "8.44", "lb"),
        ("big_fish", "1.52", "lb"),
    ]
    assert tablet.inner_text("#scale-says") == ""


def test_a_scale_follows_itself_but_never_a_hand(tablet: Any) -> None:
    key(tablet, "59", "7", "0", "0")
    for told, words in (
        ({"text": "0.00"}, "The scale is empty."),
        ({"text": "-0.04"}, "The scale is empty."),
        ({"stable": False}, "The scale is not at rest."),
        ({"unit": "kg"}, "The scale reads kg, the event weighs in lb"),
    ):
        said = reading(tablet, **told)
        assert said["taken"] is None and words in said["why"]
        assert words in tablet.inner_text("#scale-says") and tablet.input_value("#gross") == ""
    reading(tablet)
    assert reading(tablet, "8.46", "ST,GS,+00008.46lb")["taken"] == "gross", "fish were laid on"
    assert reading(tablet, "0.00")["taken"] is None and tablet.input_value("#gross") == "8.46"
    tablet.fill("#gross", "8.64")
    assert "written by hand stays" in reading(tablet)["why"]
    assert tablet.input_value("#gross") == "8.64"
    tablet.focus("#boat")
    assert "go to the weight" in reading(tablet)["why"] and tablet.input_value("#boat") == "59"
