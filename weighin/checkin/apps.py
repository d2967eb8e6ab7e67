from django.apps import AppConfig


class CheckinConfig(AppConfig):
    name = "weighin.checkin"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.checkin.models import CheckIn, DueNotice
        from weighin.events.domain import recorded
        from weighin.events.domain.faults import CHECK_INS, DUE_NOTICES

        recorded.stands_under_days(CHECK_INS, CheckIn)
        recorded.stands_under_days(DUE_NOTICES, DueNotice)
