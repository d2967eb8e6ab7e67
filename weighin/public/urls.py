from django.urls import path

from weighin.public import screen_views, views

app_name = "public"
urlpatterns = [
    path("", views.home, name="home"),
    path("results/<slug:event_slug>/", views.event, name="event"),
    path("results/<slug:event_slug>/screen/", screen_views.screen, name="screen"),
    path("results/<slug:event_slug>/crowd/", screen_views.crowd, name="crowd"),
    path("results/<slug:event_slug>/standings/", views.standings, name="standings"),
    path("results/<slug:event_slug>/standings/why/<int:boat>/", views.why, name="why"),
    path("results/<slug:event_slug>/official/<int:version>/", views.result, name="result"),
    path("results/<slug:event_slug>/rules/", views.rules, name="rules"),
    path("results/<slug:event_slug>/fish/", views.fish, name="mortality"),
    path("results/<slug:event_slug>/briefing/", views.briefing, name="briefing"),
    path("results/<slug:event_slug>/briefing.pdf", views.briefing_file, name="briefing_file"),
    path("api/openapi.json", views.openapi, name="openapi"),
    path("api/events/<slug:event_slug>", views.api_event, name="api_event"),
]
