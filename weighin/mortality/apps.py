from django.apps import AppConfig


class MortalityConfig(AppConfig):
    name = "weighin.mortality"
    default_auto_field = "django.db.models.BigAutoField"
