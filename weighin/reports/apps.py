from django.apps import AppConfig


class ReportsConfig(AppConfig):
    name = "weighin.reports"
    default_auto_field = "django.db.models.BigAutoField"
