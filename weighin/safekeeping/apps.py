from django.apps import AppConfig
from django.db.backends.signals import connection_created


class SafekeepingConfig(AppConfig):
    name = "weighin.safekeeping"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.safekeeping.database.earlier_layout import refuse_earlier_layout

        connection_created.connect(refuse_earlier_layout, dispatch_uid="safekeeping.earlier_layout")
