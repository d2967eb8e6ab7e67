from django.urls import path

from weighin.reports import briefing, paper, scale_checks, views

app_name = "reports"
urlpatterns = [
    path("events/<slug:event_slug>/slips/<int:number>/print/", paper.slip_print, name="slip_pdf"),
    path("events/<slug:event_slug>/slips/print/", paper.day_slips, name="slips_pdf"),
    path("events/<slug:event_slug>/boat-cards.pdf", paper.boat_cards, name="boat_cards"),
    path("events/<slug:event_slug>/pads/<int:pad_pk>/print.pdf", paper.pad_print, name="pad_pdf"),
    path("events/<slug:event_slug>/scales/checks.pdf", scale_checks.scale_checks, name="scale_checks"),
    path("events/<slug:event_slug>/briefing.pdf", briefing.briefing, name="briefing"),
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
    path("events/<slug:event_slug>/files/<str:form>", views.event_file, name="event_file"),
    path("clubs/<slug:club_slug>/seasons/<slug:season_slug>/files/<str:form>", views.season_file, name="season_file"),
]
