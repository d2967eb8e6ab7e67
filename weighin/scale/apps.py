from django.apps import AppConfig


class ScaleConfig(AppConfig):
    name = "weighin.scale"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.events.writes import due_times_changed
        from weighin.scale.soundness import refuse_unsound

        due_times_changed.connect(refuse_unsound)
