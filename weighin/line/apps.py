from django.apps import AppConfig


class LineConfig(AppConfig):
    name = "weighin.line"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.line.queries import for_slip
        from weighin.slips.domain import known_before

        known_before.register(for_slip)
