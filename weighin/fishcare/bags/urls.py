from django.urls import path

from weighin.fishcare.bags import views

BAGS = "events/<slug:event_slug>/care/account"
urlpatterns = [
    path(f"{BAGS}/", views.account, name="account"),
    path(f"{BAGS}/<int:day>/let-go/", views.bags_let_go, name="bags_let_go"),
    path(f"{BAGS}/<int:day>/<int:boat>/handed/", views.bag_handed, name="bag_handed"),
    path(f"{BAGS}/bags/<int:bag_pk>/back/", views.bag_taken_back, name="bag_taken_back"),
]
