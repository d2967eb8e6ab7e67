from django.urls import path

from weighin.holding import views

app_name = "holding"
HOLDING = "events/<slug:event_slug>/care/holding"
urlpatterns = [
    path(f"{HOLDING}/", views.holding, name="holding"),
    path(f"{HOLDING}/pens/new/", views.pen_new, name="pens_new"),
    path(f"{HOLDING}/pens/<uuid:pen_pk>/", views.pen, name="pen"),
    path(f"{HOLDING}/pens/<uuid:pen_pk>/change/", views.pen_change, name="pen_change"),
    path(f"{HOLDING}/pens/<uuid:pen_pk>/end/", views.pen_end, name="pen_end"),
    path(f"{HOLDING}/pens/<uuid:pen_pk>/checks/new/", views.check_new, name="checks_new"),
    path(f"{HOLDING}/checks/<uuid:check_pk>/", views.check, name="check"),
    path(f"{HOLDING}/records/new/", views.record_new, name="holding_records_new"),
    path(f"{HOLDING}/records/<int:record_pk>/", views.record, name="holding_record"),
]
