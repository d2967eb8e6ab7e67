from django.urls import path

from weighin.advice import views

app_name = "advice"
urlpatterns = [
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/mortality/", views.season, name="season"),
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/what-if/", views.what_if, name="what_if"),
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/rules/", views.points_rules, name="points_rules"),
    path("events/<slug:event_slug>/rules/change/", views.rule_change, name="rule_change"),
]
