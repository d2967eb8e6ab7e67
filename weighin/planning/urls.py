from django.urls import path

from weighin.planning.views import briefing, care_plan, planner

app_name = "planning"
urlpatterns = [
    path("planner/", planner.planner, name="planner"),
    path("events/<slug:event_slug>/planner/", planner.event_planner, name="event_planner"),
    path("events/<slug:event_slug>/briefing/", briefing.briefing, name="briefing"),
    path("events/<slug:event_slug>/care-plan/", care_plan.care_plan, name="care_plan"),
]
