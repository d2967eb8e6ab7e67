from django.apps import AppConfig


class PublicConfig(AppConfig):
    name = "weighin.public"
    default_auto_field = "django.db.models.BigAutoField"
