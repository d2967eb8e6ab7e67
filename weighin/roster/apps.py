from django.apps import AppConfig


class RosterConfig(AppConfig):
    name = "weighin.roster"
    default_auto_field = "django.db.models.BigAutoField"
