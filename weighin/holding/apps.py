from django.apps import AppConfig


class HoldingConfig(AppConfig):
    name = "weighin.holding"
    default_auto_field = "django.db.models.BigAutoField"
