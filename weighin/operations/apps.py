from django.apps import AppConfig, apps
from django.db.models.signals import post_migrate


class OperationsConfig(AppConfig):
    name = "weighin.operations"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.letters.domain import before
        from weighin.operations.services.chaining import chain_after_migrate
        from weighin.operations.services.telling import withdraw_what_is_over

        before.register(withdraw_what_is_over)

        # Sent by an app that has models, when every app is migrated
        post_migrate.connect(chain_after_migrate, apps.get_app_config("audit"), dispatch_uid="operations.chaining")
