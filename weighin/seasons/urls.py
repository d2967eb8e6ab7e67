from django.urls import path

from weighin.seasons.views import series, standings

app_name = "seasons"
SEASON = "clubs/<slug:club_slug>/seasons/<slug:season_slug>"
SERIES = f"{SEASON}/series/<slug:series_slug>"
urlpatterns = [
    path(f"{SEASON}/points/", standings.standings, name="standings"),
    path(f"{SEASON}/points/files/<str:form>", standings.standings_files, name="files"),
    path(f"{SEASON}/points/<str:which>/", standings.standings, name="list"),
    path(f"{SEASON}/teams/<int:team_pk>/", standings.team, name="team"),
    path(f"{SEASON}/series/new/", series.series_form, name="series_new"),
    path(f"{SERIES}/", standings.standings, name="series"),
    path(f"{SERIES}/edit/", series.series_form, name="series_edit"),
    path(f"{SERIES}/remove/", series.series_remove, name="series_remove"),
    path(f"{SERIES}/files/<str:form>", standings.standings_files, name="series_files"),
    path(f"{SERIES}/<str:which>/", standings.standings, name="series_list"),
]
