from django.apps import AppConfig
from django.db.backends.signals import connection_created
from django.db.models.signals import post_migrate, pre_migrate


class AuditConfig(AppConfig):
    name = "weighin.audit"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.audit.database.in_use import keep_in_use, remember_file
        from weighin.audit.database.names_aside import put_aside_after_migrate
        from weighin.audit.database.triggers import install_after_migrate, let_tables_be_made_anew

        pre_migrate.connect(let_tables_be_made_anew, dispatch_uid="audit.triggers_before")
        post_migrate.connect(install_after_migrate, dispatch_uid="audit.triggers")
        post_migrate.connect(put_aside_after_migrate, dispatch_uid="audit.names_aside")
        connection_created.connect(keep_in_use, dispatch_uid="audit.in_use")
        connection_created.connect(remember_file, dispatch_uid="audit.file")
