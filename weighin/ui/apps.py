from django.apps import AppConfig


class UiConfig(AppConfig):
    """Base table, template tags, charts and static files; no models and no pages of its own."""

    name = "weighin.ui"
    label = "ui"
    default_auto_field = "django.db.models.BigAutoField"
