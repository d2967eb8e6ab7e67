from django.apps import AppConfig


class StationsConfig(AppConfig):
    name = "weighin.stations"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.events.domain import recorded
        from weighin.stations.models import Station

        recorded.goes_along(Station)
