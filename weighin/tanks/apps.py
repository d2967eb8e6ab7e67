from django.apps import AppConfig


class TanksConfig(AppConfig):
    name = "weighin.tanks"
    default_auto_field = "django.db.models.BigAutoField"
