from django.apps import AppConfig


class WorkbooksConfig(AppConfig):
    name = "weighin.workbooks"
    default_auto_field = "django.db.models.BigAutoField"
