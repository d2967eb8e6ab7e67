from django.apps import AppConfig


class RegistrationConfig(AppConfig):
    name = "weighin.registration"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.registration.queries.draws import entries_closed
        from weighin.roster.domain import closing

        closing.register(entries_closed)
