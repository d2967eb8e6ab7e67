from django.urls import path

from weighin.scale.scales import station, views

urlpatterns = [
    path("api/events/<slug:event_slug>/scales", station.scales, name="api_scales"),
    path("api/events/<slug:event_slug>/scales/now", station.scales_now, name="api_scales_now"),
    path("api/events/<slug:event_slug>/readings", station.readings, name="api_readings"),
    path("events/<slug:event_slug>/scales/", views.scales, name="scales"),
    path("events/<slug:event_slug>/scales/new/", views.scales_new, name="scales_new"),
    path("events/<slug:event_slug>/scales/<int:pk>/", views.scale_edit, name="scale_edit"),
    path("events/<slug:event_slug>/scales/<int:pk>/test/", views.scale_test, name="scale_test"),
    path("events/<slug:event_slug>/scales/tests/<uuid:check_id>/", views.scale_test_out, name="scale_test_out"),
]
