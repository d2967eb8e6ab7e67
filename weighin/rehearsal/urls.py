from django.urls import path

from weighin.rehearsal import views

app_name = "rehearsal"
urlpatterns = [
    path("events/<slug:event_slug>/rehearsal/", views.rehearsal, name="rehearsal"),
    path("events/<slug:event_slug>/rehearsal/part/", views.part, name="part"),
    path("events/<slug:event_slug>/rehearsal/stop/", views.stop, name="stop"),
    path("events/<slug:event_slug>/rehearsal/wipe/", views.wipe, name="wipe"),
]
