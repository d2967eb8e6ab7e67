from django.apps import AppConfig


class BookConfig(AppConfig):
    name = "weighin.book"
    default_auto_field = "django.db.models.BigAutoField"
