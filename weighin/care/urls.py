from django.urls import path

from weighin.care import station
from weighin.care.views import notes, ramp, releases, season

app_name = "care"
EVENT = "events/<slug:event_slug>"
SEASON = "clubs/<slug:club_slug>/seasons/<slug:season_slug>"
urlpatterns = [
    path(f"api/{EVENT}/care", station.care, name="api_care"),
    path(f"api/{EVENT}/ramp", station.ramp, name="api_ramp"),
    path(f"{EVENT}/care/", notes.notes, name="notes"),
    path(f"{EVENT}/care/<int:day>/<int:boat>/", notes.note, name="note"),
    path(f"{EVENT}/care/settle/<int:number>/", notes.note_settle, name="note_settle"),
    path(f"{EVENT}/care/releases/", releases.releases, name="releases"),
    path(f"{EVENT}/ramp/", ramp.ramp, name="ramp"),
    path(f"{EVENT}/ramp/worker.js", ramp.ramp_worker, name="ramp_worker"),
    path("ramp/<slug:event_slug>/", ramp.paired_ramp, name="paired_ramp"),
    path("ramp/<slug:event_slug>/worker.js", ramp.paired_ramp_worker, name="paired_ramp_worker"),
    path(f"{SEASON}/care/", season.season_record, name="care_record"),
    path(f"{SEASON}/care/<int:entry_pk>/", season.team, name="care_team"),
]
