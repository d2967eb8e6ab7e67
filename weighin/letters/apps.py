from django.apps import AppConfig


class LettersConfig(AppConfig):
    name = "weighin.letters"
    default_auto_field = "django.db.models.BigAutoField"
