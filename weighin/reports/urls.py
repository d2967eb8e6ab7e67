from django.urls import path

from weighin.reports import views

app_name = "reports"
urlpatterns = [
    path("events/<slug:event_slug>/files/<str:form>", views.event_file, name="event_file"),
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/files/<str:form>", views.season_file, name="season_file"),
]
