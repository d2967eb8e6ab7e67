from django.apps import AppConfig


class CareConfig(AppConfig):
    name = "weighin.care"
    default_auto_field = "django.db.models.BigAutoField"
