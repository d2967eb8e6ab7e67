from django.apps import AppConfig


class ProofConfig(AppConfig):
    name = "weighin.proof"
    default_auto_field = "django.db.models.BigAutoField"
