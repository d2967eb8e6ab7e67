from django.urls import path

from weighin.registration import views

app_name = "registration"
DRAWS = "events/<slug:event_slug>/draws"
urlpatterns = [
    path(f"{DRAWS}/", views.draws, name="draws"),
    path(f"{DRAWS}/sheet/", views.sheet, name="launch_sheet"),
    path(f"{DRAWS}/shown/", views.show, name="draws_shown"),
    path(f"{DRAWS}/<str:purpose>/draw/", views.draw_now, name="draw_now"),
    path(f"{DRAWS}/<str:purpose>/void/", views.void, name="draw_void"),
]
