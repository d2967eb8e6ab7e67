from django.urls import path

from weighin.scale.roll import views

urlpatterns = [
    path("events/<slug:event_slug>/roll/", views.roll, name="roll"),
    path("events/<slug:event_slug>/roll/part/", views.roll_part, name="roll_part"),
    path("events/<slug:event_slug>/roll/worker.js", views.roll_worker, name="roll_worker"),
    path("events/<slug:event_slug>/roll/in/", views.roll_in, name="roll_in"),
    path("events/<slug:event_slug>/roll/launched/", views.roll_launch, name="roll_launch"),
    path("events/<slug:event_slug>/roll/tow/", views.roll_tow, name="roll_tow"),
    path("events/<slug:event_slug>/roll/notice/", views.roll_notice, name="roll_notice"),
    path("events/<slug:event_slug>/roll/<int:day>/<int:boat>/", views.roll_boat, name="roll_boat"),
    path("events/<slug:event_slug>/roll/<int:day>/<int:boat>/settle/", views.roll_settle, name="roll_settle"),
    path("events/<slug:event_slug>/roll/lines/<int:number>/correct/", views.roll_correct, name="roll_correct"),
    path("events/<slug:event_slug>/roll/lines/<int:number>/void/", views.roll_void, name="roll_void"),
]
