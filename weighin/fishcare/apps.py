from django.apps import AppConfig


class FishcareConfig(AppConfig):
    name = "weighin.fishcare"
    default_auto_field = "django.db.models.BigAutoField"
