from django.apps import AppConfig


class StandingsConfig(AppConfig):
    name = "weighin.standings"
    default_auto_field = "django.db.models.BigAutoField"
