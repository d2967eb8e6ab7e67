from django.apps import AppConfig


class EventsConfig(AppConfig):
    name = "weighin.events"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.clubs.domain import clock
        from weighin.events.domain import recorded
        from weighin.events.domain.faults import FLIGHTS
        from weighin.events.models import Flight
        from weighin.events.queries.events import latest_zone

        clock.register(latest_zone)
        recorded.stands_under_days(FLIGHTS, Flight)
