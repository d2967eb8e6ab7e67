from django.apps import AppConfig


class StationsConfig(AppConfig):
    name = "weighin.stations"
    default_auto_field = "django.db.models.BigAutoField"
