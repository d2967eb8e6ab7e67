from django.apps import AppConfig


class SignupConfig(AppConfig):
    name = "weighin.signup"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.events.domain import recorded
        from weighin.letters.domain import before
        from weighin.registration.domain import places
        from weighin.signup.models import SignUp, SignUpTerms
        from weighin.signup.queries.places import without_place
        from weighin.signup.services.telling import tell_all_places

        places.register(without_place)
        before.register(tell_all_places)
        recorded.goes_along(SignUp)
        recorded.goes_along(SignUpTerms)
