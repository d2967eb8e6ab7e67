"""Django's form rendering in the look of the book: ``FORM_RENDERER = "weighin.ui.forms.renderer.BookForms"``."""

from django.forms.renderers import TemplatesSetting


class BookForms(TemplatesSetting):
    """``{{ form }}`` and ``{{ form.name.as_field_group }}`` by our templates; needs ``django.forms``."""

    form_template_name = "ui/form.html"
    field_template_name = "ui/form_field.html"
