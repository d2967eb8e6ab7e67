from django.urls import path

from weighin.events import removal_page, rule_views, views

app_name = "events"
urlpatterns = [
    path("clubs/", views.mine, name="mine"),
    path("clubs/<slug:club_slug>/", views.club, name="club"),
    path("clubs/<slug:club_slug>/events/new/", views.new, name="new"),
    path("events/<slug:event_slug>/setup/", views.setup, name="setup"),
    path("events/<slug:event_slug>/setup/remove/", removal_page.remove, name="remove"),
    path("events/<slug:event_slug>/setup/event/", views.edit, name="edit"),
    path("events/<slug:event_slug>/setup/days/<int:number>/", views.day, name="day"),
    path("events/<slug:event_slug>/setup/flights/new/", views.flights_new, name="flights_new"),
    path("events/<slug:event_slug>/setup/flights/<int:flight_pk>/", views.flight, name="flight"),
    path("events/<slug:event_slug>/rules/", rule_views.rules, name="rules"),
    path("events/<slug:event_slug>/rules/edit/", rule_views.rules_edit, name="rules_edit"),
]
