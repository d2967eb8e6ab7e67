from django.apps import AppConfig


class AdviceConfig(AppConfig):
    name = "weighin.advice"
    default_auto_field = "django.db.models.BigAutoField"
