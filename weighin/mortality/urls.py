from django.urls import path

from weighin.mortality import views

app_name = "mortality"
urlpatterns = [
    path("events/<slug:event_slug>/mortality/", views.event, name="event"),
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/mortality/", views.season, name="season"),
    path("clubs/<slug:club_slug>/mortality/", views.trend, name="trend"),
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/what-if/", views.what_if, name="what_if"),
]
