"""The briefing's address, in the namespace of fish care."""

from django.urls import path

from weighin.fishcare.briefing import views

urlpatterns = [
    path("events/<slug:event_slug>/briefing/", views.briefing, name="briefing"),
]
