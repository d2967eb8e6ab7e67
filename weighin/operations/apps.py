from django.apps import AppConfig


class OperationsConfig(AppConfig):
    name = "weighin.operations"
    default_auto_field = "django.db.models.BigAutoField"
