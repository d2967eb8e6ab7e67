from django.urls import path

from weighin.scale.pads import views

urlpatterns = [path("events/<slug:event_slug>/pads/", views.pads, name="pads")]
