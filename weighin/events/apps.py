from django.apps import AppConfig


class EventsConfig(AppConfig):
    name = "weighin.events"
    default_auto_field = "django.db.models.BigAutoField"
