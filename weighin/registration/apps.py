from django.apps import AppConfig


class RegistrationConfig(AppConfig):
    name = "weighin.registration"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.events.domain import fees, recorded
        from weighin.registration.models import Payment, SidePot
        from weighin.registration.queries.draws import entries_closed
        from weighin.registration.services.fees import FEES
        from weighin.registration.services.payments import note_paid, say_paid
        from weighin.roster.domain import closing, payments

        recorded.goes_along(SidePot)
        recorded.goes_with_others(Payment, **dict([Payment.GO_WHERE]))
        closing.register(entries_closed)
        fees.register(FEES)
        payments.register(payments.Payments(note_paid, say_paid))
