"""Forms of rows are made of what is declared: each page asks for every field, and shows what a row says as it was written."""

from pathlib import Path

import pytest
import world
from django.template.loader import get_template

from weighin.events.forms.rows import RowForm
from weighin.events.queries.care_context import care_context_of
from weighin.holding.forms import CheckForm, FinishedForm, PenForm
from weighin.tanks.forms.releases import KeptForm, ReleaseForm, WalkForm
from weighin.tanks.forms.tanks import ReadingForm, TreatmentForm

FORMS = (ReadingForm, TreatmentForm, ReleaseForm, WalkForm, KeptForm, PenForm, CheckForm, FinishedForm)


@pytest.mark.django_db
@pytest.mark.parametrize("kind", FORMS, ids=lambda kind: kind.__name__)
def test_the_page_asks_for_every_field_that_is_declared(kind: type[RowForm]) -> None:
    form = kind(care_context=care_context_of(world.event()))
    source = Path(get_template(kind.page).origin.name).read_text(encoding="utf-8")
    asked = {name for name in form.fields if f"form.{name}.as_field_group" in source}
    assert asked == {*form.fields} - {"key", "seen"}


def test_no_form_of_rows_is_left_out() -> None:
    assert set(RowForm.__subclasses__()) == set(FORMS)
