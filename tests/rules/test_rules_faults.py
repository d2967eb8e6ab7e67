"""Sentences with codes: faults, errors of reading, names of fields and lists in them, other languages."""

from collections.abc import Iterator

import pytest

from weighin.rules import language
from weighin.rules.faults import (
    Choices,
    Faults,
    FieldName,
    Listed,
    Sentence,
    Together,
    gettext_noop,
    ngettext_noop,
    placeholders,
)

NO_BOAT = Sentence("test_no_boat", gettext_noop("there is no boat %(boat)s: enter the team first"))
ORDER = Sentence("test_order", gettext_noop("%(later)s is before %(earlier)s: correct one of the two times"))
LEFT = Sentence("test_left", ngettext_noop("%(n)s fish is left", "%(n)s fish are left"))
SURE = Sentence("test_sure", gettext_noop("100 %% of %(what)s"))
PICK = Sentence("test_pick", gettext_noop("choose %(choices)s"))
GERMAN = {
    "there is no boat %(boat)s: enter the team first": "Boot %(boat)s gibt es nicht: erst das Team eintragen",
    "%(most)s or %(last)s": "%(most)s oder %(last)s",
    "“%(label)s”": "„%(label)s“",
}


@pytest.fixture
def german() -> Iterator[None]:
    before = language._look_up, language._look_up_number
    language.speak(lambda text: GERMAN.get(text, text), lambda one, many, n: f"{one}|{many}|{n}")
    yield
    language.speak(*before)


def test_a_fault_is_a_code_with_parameters():
    fault = NO_BOAT.at("boat", boat=7)
    assert (fault.field, fault.code, fault.params, fault.also) == ("boat", "test_no_boat", {"boat": 7}, ())
    assert fault.message == "there is no boat 7: enter the team first"
    assert fault == NO_BOAT.at("boat", boat=7) and fault != NO_BOAT.at("boat", boat=8)
    assert len({fault, NO_BOAT.at("boat", boat=7)}) == 1


def test_an_error_of_reading_becomes_the_fault_of_its_field():
    wrong = NO_BOAT.wrong(boat=7)
    assert isinstance(wrong, ValueError)
    assert str(wrong) == "there is no boat 7: enter the team first"
    assert wrong.at("boat", "day") == NO_BOAT.at("boat", "day", boat=7)
    assert str(Faults([wrong.at("boat"), LEFT.at("", n=2)])) == f"boat: {wrong}; 2 fish are left"


def test_a_number_chooses_the_form():
    assert LEFT.says(n=1).shown() == "1 fish is left"
    assert LEFT.says(n=0).shown() == "0 fish are left"
    assert placeholders(LEFT) == {"n"} and placeholders(SURE) == {"what"}


def test_a_per_cent_sign_stands_as_one():
    assert SURE.at("", what="7 %").message == "100 % of 7 %"


def test_fields_stand_by_name_and_on_a_page_by_label():
    fault = ORDER.at("released", later=FieldName("released"), earlier=FieldName("weighed"))
    assert fault.message == "released is before weighed: correct one of the two times"
    shown = fault.in_labels({"released": "Back in the water", "weighed": "Weighed"})
    assert shown.message == "“Back in the water” is before “Weighed”: correct one of the two times"
    assert (shown.field, shown.code) == (fault.field, fault.code)


def test_lists_and_sentences_stand_in_sentences():
    labels = {"boat": "Boat"}
    assert PICK.at("", choices=Choices(("a", "b", "c"))).message == "choose a, b or c"
    assert PICK.at("", choices=Choices(("a",))).message == "choose a"
    assert PICK.at("", choices=Together(("a", FieldName("boat")))).in_labels(labels).message == "choose a and “Boat”"
    inner = PICK.says(choices=Listed(("a", FieldName("boat"))))
    assert SURE.at("", what=inner).in_labels(labels).message == "100 % of choose a, “Boat”"


def test_a_fault_is_read_in_the_language_of_its_reader(german: None):
    fault = NO_BOAT.at("boat", boat=7)
    assert fault.message == "Boot 7 gibt es nicht: erst das Team eintragen"
    assert str(NO_BOAT.wrong(boat=7)) == fault.message
    assert LEFT.says(n=2).shown() == "2 fish is left|2 fish are left|2"
    named = PICK.at("", choices=Choices(("a", FieldName("boat")))).in_labels({"boat": "Boot"})
    assert named.message == "choose a oder „Boot“"
