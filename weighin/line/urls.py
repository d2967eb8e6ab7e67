from django.urls import path

from weighin.line import views

app_name = "line"
LINE = "events/<slug:event_slug>/line"
urlpatterns = [
    path(f"{LINE}/", views.line, name="line"),
    path(f"{LINE}/now/", views.line_part, name="line_part"),
    path(f"{LINE}/say/", views.line_say, name="line_say"),
    path(f"{LINE}/plan/", views.line_plan, name="line_plan"),
]
