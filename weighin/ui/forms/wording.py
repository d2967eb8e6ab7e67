"""Django's own form complaints in the voice of the book: what is wrong, then what to do."""

from typing import TYPE_CHECKING

from django import forms
from django.core import validators
from django.utils.translation import gettext_lazy, ngettext_lazy

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

BLANK: dict[type[forms.Field], "StrOrPromise"] = {
    forms.Field: gettext_lazy("This is blank. Write it here."),
    forms.FileField: gettext_lazy("No file is chosen. Choose one."),
    forms.BooleanField: gettext_lazy("This box must be checked to go on."),
    forms.ChoiceField: gettext_lazy("Nothing is chosen. Choose one."),
    forms.ModelChoiceField: gettext_lazy("Nothing is chosen. Choose one."),
}
NOT_READ: dict[type[forms.Field], "StrOrPromise"] = {
    forms.IntegerField: gettext_lazy("Write a whole number in figures, such as 7."),
    forms.DecimalField: gettext_lazy("Write a number in figures, such as 7.5."),
    forms.TimeField: gettext_lazy("Write a time such as 2:30 PM."),
    forms.DateField: gettext_lazy("Write a date such as Jun 20, 2026."),
}


def say_it_our_way() -> None:
    """Replaces the framework's default messages; a form that gives its own keeps it."""
    for field, words in BLANK.items():
        field.default_error_messages = {**field.default_error_messages, "required": words}
    for field, words in NOT_READ.items():
        field.default_error_messages = {**field.default_error_messages, "invalid": words}
    validators.MinValueValidator.message = gettext_lazy("It is %(show_value)s. Write %(limit_value)s or more.")
    validators.MaxValueValidator.message = gettext_lazy("It is %(show_value)s. Write %(limit_value)s or less.")
    validators.MaxLengthValidator.message = ngettext_lazy(
        "It has %(show_value)d characters. Shorten it to %(limit_value)d or fewer.",
        "It has %(show_value)d characters. Shorten it to %(limit_value)d or fewer.",
        "limit_value",
    )
