from django.urls import path

from weighin.operations import views

app_name = "operations"
urlpatterns = [
    path("certificate/", views.certificate, name="certificate"),
    path("certificate/authority.crt", views.authority, name="authority"),
    path("check/", views.check_file, name="check_file"),
    path("events/<slug:event_slug>/", views.day, name="day"),
    path("events/<slug:event_slug>/lake/", views.lake, name="lake"),
    path("events/<slug:event_slug>/publish/", views.publish, name="publish"),
    path("events/<slug:event_slug>/close/", views.close, name="close"),
    path("events/<slug:event_slug>/next/", views.next_event, name="next_event"),
    path("events/<slug:event_slug>/words/", views.words, name="words"),
    path("events/<slug:event_slug>/history/", views.history, name="history"),
    path("clubs/<slug:club_slug>/history/", views.club_history, name="club_history"),
    path("clubs/<slug:club_slug>/import/", views.bring_in, name="import"),
    path("clubs/<slug:club_slug>/import/<slug:key>/", views.import_job, name="import_job"),
]
