from django.apps import AppConfig
from django.db.models.signals import post_delete


class RegistrationConfig(AppConfig):
    name = "weighin.registration"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.events.domain import fees, recorded
        from weighin.registration.models import Means, Payment, SidePot
        from weighin.registration.queries.draws import entries_closed
        from weighin.registration.services.fees import FEES
        from weighin.registration.services.following import go_with_team
        from weighin.registration.services.payments import note_paid, say_paid
        from weighin.roster.domain import closing, payments
        from weighin.roster.models import Entry

        closing.register(entries_closed)
        recorded.goes_along(SidePot)
        recorded.goes_with_others(Payment, means=Means.NOT_RECORDED)
        post_delete.connect(go_with_team, Entry, dispatch_uid="registration.payments_go")
        fees.register(FEES)
        payments.register(payments.Payments(note_paid, say_paid))
