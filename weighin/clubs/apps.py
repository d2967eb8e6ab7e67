from django.apps import AppConfig


class ClubsConfig(AppConfig):
    name = "weighin.clubs"
    default_auto_field = "django.db.models.BigAutoField"
