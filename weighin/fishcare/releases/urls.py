from django.urls import path

from weighin.fishcare.releases import views

CARE = "events/<slug:event_slug>/care"
SEASON = "clubs/<slug:club_slug>/seasons/<slug:season_slug>"
urlpatterns = [
    path(f"{CARE}/releases/", views.releases, name="releases"),
    path(f"{CARE}/releases/new/", views.release_new, name="releases_new"),
    path(f"{CARE}/releases/<uuid:release_pk>/", views.release, name="release"),
    path(f"{CARE}/releases/walks/new/", views.walk_new, name="walks_new"),
    path(f"{CARE}/releases/walks/<uuid:walk_pk>/", views.walk, name="walk"),
    path(f"{CARE}/releases/kept/new/", views.kept_new, name="kept_new"),
    path(f"{CARE}/releases/kept/<uuid:kept_pk>/", views.kept_fish, name="kept_fish"),
    path(f"{CARE}/crappie/", views.crappie, name="crappie"),
    path(f"{SEASON}/releases/", views.release_sites, name="release_sites"),
]
