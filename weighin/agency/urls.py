from django.urls import path

from weighin.agency import views

app_name = "agency"
urlpatterns = [
    path("events/<slug:event_slug>/catch/", views.event_catch, name="event_catch"),
    path("events/<slug:event_slug>/catch/details/", views.catch_details, name="catch_details"),
    path("events/<slug:event_slug>/catch/<str:form>", views.event_catch, name="event_catch_file"),
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/catch/", views.season_catch, name="season_catch"),
    path(
        "clubs/<slug:club_slug>/seasons/<slug:season_slug>/catch/<str:form>",
        views.season_catch,
        name="season_catch_file",
    ),
    path("events/<slug:event_slug>/open-data.zip", views.event_open_data, name="event_open_data"),
    path(
        "clubs/<slug:club_slug>/seasons/<slug:season_slug>/open-data.zip",
        views.season_open_data,
        name="season_open_data",
    ),
]
