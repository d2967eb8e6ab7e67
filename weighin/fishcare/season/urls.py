from django.urls import path

from weighin.fishcare.season import views

SEASON = "clubs/<slug:club_slug>/seasons/<slug:season_slug>"
urlpatterns = [
    path(f"{SEASON}/care/", views.season_record, name="care_record"),
    path(f"{SEASON}/care/<int:entry_pk>/", views.team, name="care_team"),
]
