"""The models' complaints in the reader's language."""

import pytest

from weighin.livewell.figures import ranges
from weighin.livewell.figures.ranges import OutOfRange, within

MARKED = {
    "%(what)s must be from %(low)s to %(high)s %(unit)s, not %(value)s %(unit)s.": "%(what)s: %(low)s-%(high)s %(unit)s",
    "The salt": "Das Salz",
}


def test_a_complaint_is_read_in_the_language_of_its_reader():
    with pytest.raises(OutOfRange) as caught:
        within("percent", 12, 0, 5, "The salt", "%")
    assert str(caught.value) == "The salt must be from 0 to 5 %, not 12 %."
    before = ranges._look_up
    ranges.speak(lambda text: MARKED.get(text, text))
    try:
        assert str(caught.value) == str(caught.value.at("other")) == "Das Salz: 0-5 %"
    finally:
        ranges.speak(before)
    assert caught.value.at("other").name == "other"
