from django.apps import AppConfig


class PrivacyConfig(AppConfig):
    name = "weighin.privacy"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.clubs.domain import wanted
        from weighin.privacy.pages.wanted import names_to_erase

        wanted.register(names_to_erase)
