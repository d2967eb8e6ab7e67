from django.urls import path

from weighin.roster import views

app_name = "roster"
urlpatterns = [
    path("events/<slug:event_slug>/teams/", views.teams, name="teams"),
    path("events/<slug:event_slug>/teams/new/", views.teams_new, name="teams_new"),
    path("events/<slug:event_slug>/teams/<int:boat>/", views.team, name="team"),
    path("events/<slug:event_slug>/teams/waiting/<int:pk>/", views.team, name="waiting_team"),
]
