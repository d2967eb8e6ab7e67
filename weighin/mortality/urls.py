from django.urls import path

from weighin.mortality import views

app_name = "mortality"
urlpatterns = [
    path("events/<slug:event_slug>/mortality/", views.event, name="event"),
    path("clubs/<slug:club_slug>/mortality/", views.trend, name="trend"),
]
