from django.urls import path

from weighin.scales import views

app_name = "scales"
SCALES = "events/<slug:event_slug>/scales"
urlpatterns = [
    path(f"{SCALES}/new/", views.scales_new, name="scales_new"),
    path(f"{SCALES}/<int:pk>/", views.scale_edit, name="scale_edit"),
    path(f"{SCALES}/<int:pk>/test/", views.scale_test, name="scale_test"),
    path(f"{SCALES}/tests/<uuid:check_id>/", views.scale_test_out, name="scale_test_out"),
]
