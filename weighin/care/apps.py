from django.apps import AppConfig


class CareConfig(AppConfig):
    name = "weighin.care"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.care.models import CareNote
        from weighin.care.queries.care_times import CARE_TIMES
        from weighin.checkin.domain import care_times
        from weighin.events.domain import recorded
        from weighin.events.domain.faults import CARE_NOTES

        recorded.stands_under_days(CARE_NOTES, CareNote)
        care_times.register(CARE_TIMES)
