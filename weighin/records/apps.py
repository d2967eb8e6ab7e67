from django.apps import AppConfig


class RecordsConfig(AppConfig):
    name = "weighin.records"
    default_auto_field = "django.db.models.BigAutoField"
