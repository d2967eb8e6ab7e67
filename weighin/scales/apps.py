from django.apps import AppConfig


class ScalesConfig(AppConfig):
    name = "weighin.scales"
    default_auto_field = "django.db.models.BigAutoField"
