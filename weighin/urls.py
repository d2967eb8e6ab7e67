"""Every address of the site; the scale's first, since they are asked for most when every answer is waited for."""

from django.urls import URLPattern, URLResolver, include, path

handler400 = "weighin.ui.refusals.bad_request"
urlpatterns: list[URLPattern | URLResolver] = [
    path("", include("weighin.scale.urls")),
    path("", include("weighin.public.urls")),
    path("", include("weighin.accounts.urls")),
    path("", include("weighin.clubs.urls")),
    path("", include("weighin.events.urls")),
    path("", include("weighin.roster.urls")),
    path("", include("weighin.standings.urls")),
    path("", include("weighin.fishcare.urls")),
    path("", include("weighin.mortality.urls")),
    path("", include("weighin.reports.urls")),
    path("", include("weighin.operations.urls")),
]
