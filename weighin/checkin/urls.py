from django.urls import path

from weighin.checkin import views

app_name = "checkin"
ROLL = "events/<slug:event_slug>/roll"
urlpatterns = [
    path(f"{ROLL}/", views.roll, name="roll"),
    path(f"{ROLL}/part/", views.roll_part, name="roll_part"),
    path(f"{ROLL}/worker.js", views.roll_worker, name="roll_worker"),
    path(f"{ROLL}/in/", views.roll_in, name="roll_in"),
    path(f"{ROLL}/launched/", views.roll_launch, name="roll_launch"),
    path(f"{ROLL}/tow/", views.roll_tow, name="roll_tow"),
    path(f"{ROLL}/notice/", views.roll_notice, name="roll_notice"),
    path(f"{ROLL}/<int:day>/<int:boat>/", views.roll_boat, name="roll_boat"),
    path(f"{ROLL}/lines/<int:number>/correct/", views.roll_correct, name="roll_correct"),
    path(f"{ROLL}/lines/<int:number>/void/", views.roll_void, name="roll_void"),
]
