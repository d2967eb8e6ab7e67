from django.apps import AppConfig


class UiConfig(AppConfig):
    """Base table, template tags, charts and static files; no models and no pages of its own."""

    name = "weighin.ui"
    label = "ui"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from django.utils.translation import gettext, ngettext

        from weighin.livewell.figures import ranges
        from weighin.rules import language
        from weighin.ui.forms.wording import say_it_our_way

        language.speak(gettext, ngettext)
        ranges.speak(gettext)
        say_it_our_way()
