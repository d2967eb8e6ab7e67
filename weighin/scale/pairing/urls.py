from django.urls import path

from weighin.scale.pairing import views

urlpatterns = [
    path("events/<slug:event_slug>/stations/", views.stations, name="stations"),
    path(
        "events/<slug:event_slug>/stations/<int:station_pk>/withdraw/", views.station_withdraw, name="station_withdraw"
    ),
]
