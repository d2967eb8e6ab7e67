"""Django's own form complaints in the voice of the book: what is wrong, then what to do."""

from django import forms
from django.core import validators


def say_it_our_way() -> None:
    """Replaces the framework's default messages; a form that gives its own keeps it."""
    forms.Field.default_error_messages["required"] = "This is blank. Write it here."
    forms.FileField.default_error_messages["required"] = "No file is chosen. Choose one."
    forms.BooleanField.default_error_messages["required"] = "This must be ticked to go on."
    forms.ChoiceField.default_error_messages["required"] = "Nothing is chosen. Choose one."
    forms.IntegerField.default_error_messages["invalid"] = "Write a whole number in figures, such as 7."
    forms.DecimalField.default_error_messages["invalid"] = "Write a number in figures, such as 7.5."
    forms.TimeField.default_error_messages["invalid"] = "Write a time as 14:30."
    forms.DateField.default_error_messages["invalid"] = "Write a date as 2026-06-20."
    validators.MinValueValidator.message = "It is %(show_value)s. Write %(limit_value)s or more."
    validators.MaxValueValidator.message = "It is %(show_value)s. Write %(limit_value)s or less."
    validators.MaxLengthValidator.message = (
        "It has %(show_value)d characters. Shorten it to %(limit_value)d or fewer."
    )
