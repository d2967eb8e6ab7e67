from django.apps import AppConfig


class CheckinConfig(AppConfig):
    name = "weighin.checkin"
    default_auto_field = "django.db.models.BigAutoField"
