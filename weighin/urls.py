"""Every address of the site; the stations' first, since they are asked for most when every answer is waited for."""

from django.urls import URLPattern, URLResolver, include, path

handler400 = "weighin.ui.views.refusals.bad_request"
handler500 = "weighin.public.views.broken.broken"
urlpatterns: list[URLPattern | URLResolver] = [
    path("", include("weighin.stations.urls")),
    path("", include("weighin.slips.urls")),
    path("", include("weighin.checkin.urls")),
    path("", include("weighin.line.urls")),
    path("", include("weighin.scales.urls")),
    path("", include("weighin.public.urls")),
    path("", include("weighin.accounts.urls")),
    path("", include("weighin.clubs.urls")),
    path("", include("weighin.events.urls")),
    path("", include("weighin.roster.urls")),
    path("", include("weighin.workbooks.urls")),
    path("", include("weighin.registration.urls")),
    path("", include("weighin.schedule.urls")),
    path("", include("weighin.signup.urls")),
    path("", include("weighin.standings.urls")),
    path("", include("weighin.planning.urls")),
    path("", include("weighin.tanks.urls")),
    path("", include("weighin.holding.urls")),
    path("", include("weighin.care.urls")),
    path("", include("weighin.mortality.urls")),
    path("", include("weighin.advice.urls")),
    path("", include("weighin.reports.urls")),
    path("", include("weighin.seasons.urls")),
    path("", include("weighin.agency.urls")),
    path("", include("weighin.book.urls")),
    path("", include("weighin.privacy.urls")),
    path("", include("weighin.operations.urls")),
    path("", include("weighin.rehearsal.urls")),
]
