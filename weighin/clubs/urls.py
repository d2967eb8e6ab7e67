from django.urls import path

from weighin.clubs import views

app_name = "clubs"
urlpatterns = [
    path("begin/", views.begin, name="begin"),
    path("clubs/new/", views.new, name="new"),
    path("clubs/<slug:club_slug>/edit/", views.edit, name="edit"),
    path("clubs/<slug:club_slug>/seasons/new/", views.seasons_new, name="seasons_new"),
    path("clubs/<slug:club_slug>/waters/new/", views.waters_new, name="waters_new"),
    path("clubs/<slug:club_slug>/waters/<int:water_pk>/", views.waters_edit, name="waters_edit"),
    path("clubs/<slug:club_slug>/members/", views.members, name="members"),
    path("clubs/<slug:club_slug>/members/new/", views.members_new, name="members_new"),
    path("clubs/<slug:club_slug>/members/<int:member_pk>/", views.member, name="member"),
]
