from django.urls import path

from weighin.workbooks import views

app_name = "workbooks"
urlpatterns = [path("events/<slug:event_slug>/teams/import/", views.import_teams, name="import_teams")]
