from django.apps import AppConfig


class RehearsalConfig(AppConfig):
    name = "weighin.rehearsal"
    default_auto_field = "django.db.models.BigAutoField"
