from django.urls import path

from weighin.privacy import views

app_name = "privacy"
urlpatterns = [
    path("privacy/", views.notice, name="notice"),
    path("privacy/<slug:club_slug>/", views.club_notice, name="club_notice"),
    path("my-data/", views.mine, name="mine"),
    path("my-data.json", views.mine_file, name="mine_file"),
    path("clubs/<slug:club_slug>/privacy/", views.club, name="club"),
    path("clubs/<slug:club_slug>/privacy/notice/", views.write, name="write"),
    path("clubs/<slug:club_slug>/privacy/angler/", views.angler, name="angler"),
    path("clubs/<slug:club_slug>/privacy/members/<int:member_pk>/", views.member, name="member"),
]
