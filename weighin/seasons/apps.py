from django.apps import AppConfig


class SeasonsConfig(AppConfig):
    name = "weighin.seasons"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.events.domain import recorded
        from weighin.seasons.models import ClassMark, SeriesEvent

        recorded.goes_along(SeriesEvent)
        recorded.goes_along(ClassMark)
