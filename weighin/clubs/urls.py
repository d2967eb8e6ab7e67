from django.urls import path

from weighin.clubs.views import clubs, joining, members

app_name = "clubs"
urlpatterns = [
    path("begin/", clubs.begin, name="begin"),
    path("join/<str:token>/", joining.join, name="join"),
    path("invitations/<int:invitation_pk>/", joining.answer, name="answer"),
    path("clubs/new/", clubs.new, name="new"),
    path("clubs/<slug:club_slug>/edit/", clubs.edit, name="edit"),
    path("clubs/<slug:club_slug>/seasons/new/", clubs.seasons_new, name="seasons_new"),
    path("clubs/<slug:club_slug>/waters/new/", clubs.waters_new, name="waters_new"),
    path("clubs/<slug:club_slug>/waters/<int:water_pk>/", clubs.waters_edit, name="waters_edit"),
    path("clubs/<slug:club_slug>/members/", members.members, name="members"),
    path("clubs/<slug:club_slug>/members/new/", members.members_new, name="members_new"),
    path("clubs/<slug:club_slug>/members/<int:member_pk>/", members.member, name="member"),
    path(
        "clubs/<slug:club_slug>/invitations/<int:invitation_pk>/withdraw/",
        members.invitation_withdraw,
        name="invitation_withdraw",
    ),
    path("clubs/<slug:club_slug>/members/security/", members.security, name="security"),
]
