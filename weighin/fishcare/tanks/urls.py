from django.urls import path

from weighin.fishcare.tanks import views

CARE = "events/<slug:event_slug>/care"
urlpatterns = [
    path(f"{CARE}/tanks/", views.tanks, name="tanks"),
    path(f"{CARE}/tanks/new/", views.reading_new, name="tanks_new"),
    path(f"{CARE}/tanks/readings/<int:reading_pk>/", views.reading, name="tank_reading"),
    path(f"{CARE}/tanks/treatments/new/", views.treatment_new, name="treatments_new"),
    path(f"{CARE}/tanks/treatments/<uuid:treatment_pk>/", views.treatment, name="treatment"),
]
