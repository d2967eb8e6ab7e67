from django.apps import AppConfig


class ScaleConfig(AppConfig):
    name = "weighin.scale"
    default_auto_field = "django.db.models.BigAutoField"
