from django.apps import AppConfig


class SlipsConfig(AppConfig):
    name = "weighin.slips"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.checkin.domain import evidence
        from weighin.events.domain import recorded, weighed
        from weighin.events.domain.faults import WEIGH_SLIPS
        from weighin.events.services.revision import due_times_changed
        from weighin.roster.domain import weighed as numbers
        from weighin.slips.models import WeighSlip
        from weighin.slips.queries.for_events import FOR_EVENTS, is_on_slips
        from weighin.slips.queries.for_the_roll import FOR_THE_ROLL
        from weighin.slips.services.soundness import refuse_unsound

        due_times_changed.connect(refuse_unsound)
        evidence.register(FOR_THE_ROLL)
        recorded.stands_under_days(WEIGH_SLIPS, WeighSlip)
        weighed.register(FOR_EVENTS)
        numbers.register(is_on_slips)
