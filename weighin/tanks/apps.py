from django.apps import AppConfig


class TanksConfig(AppConfig):
    name = "weighin.tanks"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from weighin.events.domain import recorded
        from weighin.events.domain.faults import KEPT_FISH, RELEASES, TANK_READINGS, TREATMENTS
        from weighin.planning.domain import tanks
        from weighin.slips.domain import let_go
        from weighin.tanks.models import KeptFish, Release, TankReading, Treatment
        from weighin.tanks.queries.bags import went_back
        from weighin.tanks.queries.tanks import volumes_of

        for what, model in (
            (TANK_READINGS, TankReading),
            (TREATMENTS, Treatment),
            (RELEASES, Release),
            (KEPT_FISH, KeptFish),
        ):
            recorded.stands_under_days(what, model)
        let_go.register(went_back)
        tanks.register(volumes_of)
