from django.apps import AppConfig


class CareConfig(AppConfig):
    name = "weighin.care"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.care.queries.care import care_times
        from weighin.slips.domain.evidence import register_care_times

        register_care_times(care_times)
