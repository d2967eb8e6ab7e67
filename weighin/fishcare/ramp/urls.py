from django.urls import path

from weighin.fishcare.ramp import views

urlpatterns = [
    path("events/<slug:event_slug>/ramp/", views.ramp, name="ramp"),
    path("events/<slug:event_slug>/ramp/worker.js", views.ramp_worker, name="ramp_worker"),
    path("ramp/<slug:event_slug>/", views.paired_ramp, name="paired_ramp"),
    path("ramp/<slug:event_slug>/worker.js", views.paired_ramp_worker, name="paired_ramp_worker"),
]
