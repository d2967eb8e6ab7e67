from django.apps import AppConfig


class EventsConfig(AppConfig):
    name = "weighin.events"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.clubs.domain import clock, dependents
        from weighin.events.domain import recorded
        from weighin.events.domain.faults import FLIGHTS
        from weighin.events.models import Flight
        from weighin.events.queries.events import fishes_today, latest_zone
        from weighin.events.services.revision import raise_dependents

        clock.register(latest_zone, fishes_today)
        dependents.changed.connect(raise_dependents)
        recorded.stands_under_days(FLIGHTS, Flight)
