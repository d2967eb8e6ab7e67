from django.urls import path

from weighin.standings import views

app_name = "standings"
urlpatterns = [
    path("events/<slug:event_slug>/standings/", views.live, name="live"),
    path("events/<slug:event_slug>/standings/why/<int:boat>/", views.why, name="why"),
    path("events/<slug:event_slug>/results/", views.results, name="results"),
    path("events/<slug:event_slug>/results/<int:version>/", views.result, name="result"),
    path("events/<slug:event_slug>/results/protests/", views.protests, name="protests"),
    path("events/<slug:event_slug>/results/protests/<int:number>/", views.protest, name="protest"),
]
