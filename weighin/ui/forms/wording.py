"""Django's own form complaints in the voice of the book: what is wrong, then what to do."""

from django import forms
from django.core import validators

BLANK: dict[type[forms.Field], str] = {
    forms.Field: "This is blank. Write it here.",
    forms.FileField: "No file is chosen. Choose one.",
    forms.BooleanField: "This must be ticked to go on.",
    forms.ChoiceField: "Nothing is chosen. Choose one.",
    forms.ModelChoiceField: "Nothing is chosen. Choose one.",
}
NOT_READ: dict[type[forms.Field], str] = {
    forms.IntegerField: "Write a whole number in figures, such as 7.",
    forms.DecimalField: "Write a number in figures, such as 7.5.",
    forms.TimeField: "Write a time as 14:30.",
    forms.DateField: "Write a date as 2026-06-20.",
}


def say_it_our_way() -> None:
    """Replaces the framework's default messages; a form that gives its own keeps it."""
    for field, words in BLANK.items():
        field.default_error_messages = {**field.default_error_messages, "required": words}
    for field, words in NOT_READ.items():
        field.default_error_messages = {**field.default_error_messages, "invalid": words}
    validators.MinValueValidator.message = "It is %(show_value)s. Write %(limit_value)s or more."
    validators.MaxValueValidator.message = "It is %(show_value)s. Write %(limit_value)s or less."
    validators.MaxLengthValidator.message = "It has %(show_value)d characters. Shorten it to %(limit_value)d or fewer."
