from django.apps import AppConfig


class AgencyConfig(AppConfig):
    name = "weighin.agency"
    default_auto_field = "django.db.models.BigAutoField"
