from django.urls import path

from weighin.schedule.views import notices, permits, season

app_name = "schedule"
EVENT = "events/<slug:event_slug>"
urlpatterns = [
    path(f"{EVENT}/call-off/", notices.call_off, name="call_off"),
    path(f"{EVENT}/notice/", notices.notice, name="notice"),
    path(f"{EVENT}/permits/", permits.permits, name="permits"),
    path(f"{EVENT}/permits/begin/", permits.permits_begin, name="permits_begin"),
    path(f"{EVENT}/permits/new/", permits.permit_new, name="permit_new"),
    path(f"{EVENT}/permits/<int:line_pk>/", permits.permit, name="permit"),
    path(f"{EVENT}/permits/<int:line_pk>/tick/", permits.permit_tick, name="permit_tick"),
    path("clubs/<slug:club_slug>/events/season/", season.season_events, name="season_events"),
]
