from django.apps import AppConfig


class RosterConfig(AppConfig):
    name = "weighin.roster"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.events.domain import entered, recorded
        from weighin.roster.models import Entry
        from weighin.roster.queries import teams_of, teams_of_events
        from weighin.roster.services.teams import rename_flight

        entered.register(entered.Teams(teams_of, teams_of_events, rename_flight))
        recorded.goes_along(Entry)
