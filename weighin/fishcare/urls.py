from django.urls import include, path

from weighin.fishcare import station, views

app_name = "fishcare"
urlpatterns = [
    path("api/events/<slug:event_slug>/care", station.care, name="api_care"),
    path("api/events/<slug:event_slug>/ramp", station.ramp, name="api_ramp"),
    path("events/<slug:event_slug>/care/", views.notes, name="notes"),
    path("events/<slug:event_slug>/care/<int:day>/<int:boat>/", views.note, name="note"),
    path("events/<slug:event_slug>/care/settle/<int:number>/", views.note_settle, name="note_settle"),
    path("", include("weighin.fishcare.ramp.urls")),
    path("", include("weighin.fishcare.planner.urls")),
    path("", include("weighin.fishcare.briefing.urls")),
    path("", include("weighin.fishcare.tanks.urls")),
    path("", include("weighin.fishcare.bags.urls")),
    path("", include("weighin.fishcare.releases.urls")),
    path("", include("weighin.fishcare.holding.urls")),
    path("", include("weighin.fishcare.season.urls")),
]
