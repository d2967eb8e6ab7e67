from django.urls import path

from weighin.events.views import deletion, events, rules

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
]
