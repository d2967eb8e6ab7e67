"""The planner's addresses, in the namespace of fish care."""

from django.urls import path

from weighin.fishcare.planner import views

urlpatterns = [
    path("planner/", views.planner, name="planner"),
    path("events/<slug:event_slug>/planner/", views.event_planner, name="event_planner"),
]
