from django.urls import path

from weighin.events.views import deletion, events, rules, sheets

app_name = "events"
urlpatterns = [
    path("clubs/", events.mine, name="mine"),
    path("clubs/<slug:club_slug>/", events.club, name="club"),
    path("clubs/<slug:club_slug>/events/new/", events.new, name="new"),
    path("events/<slug:event_slug>/setup/", events.setup, name="setup"),
    path("events/<slug:event_slug>/setup/remove/", deletion.remove, name="remove"),
    path("events/<slug:event_slug>/setup/event/", events.edit, name="edit"),
    path("events/<slug:event_slug>/setup/days/<int:number>/", events.day, name="day"),
    path("events/<slug:event_slug>/setup/flights/new/", events.flights_new, name="flights_new"),
    path("events/<slug:event_slug>/setup/flights/<int:flight_pk>/", events.flight, name="flight"),
    path("events/<slug:event_slug>/rules/", rules.rules, name="rules"),
    path("events/<slug:event_slug>/rules/edit/", rules.rules_edit, name="rules_edit"),
    path("events/<slug:event_slug>/rules/copy/", sheets.rules_copy, name="rules_copy"),
    path("clubs/<slug:club_slug>/sheets/", sheets.sheets, name="sheets"),
    path("clubs/<slug:club_slug>/sheets/new/", sheets.sheets_new, name="sheets_new"),
    path("clubs/<slug:club_slug>/sheets/compare/", sheets.sheets_compare, name="sheets_compare"),
    path("clubs/<slug:club_slug>/sheets/<slug:sheet_slug>/", sheets.sheet, name="sheet"),
    path("clubs/<slug:club_slug>/sheets/<slug:sheet_slug>/edit/", sheets.sheet_edit, name="sheet_edit"),
]
