from django.apps import AppConfig


class ClubsConfig(AppConfig):
    name = "weighin.clubs"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.accounts.domain import around
        from weighin.clubs.queries import around_person

        around.register(around_person)
