from django.apps import AppConfig


class ScheduleConfig(AppConfig):
    name = "weighin.schedule"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.events.domain import recorded
        from weighin.events.queries import states
        from weighin.schedule.models import PermitLine
        from weighin.schedule.queries.notices import told_of
        from weighin.schedule.queries.states import states_of

        states.register(states_of, told_of)
        recorded.goes_along(PermitLine)
