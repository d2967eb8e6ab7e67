from django.urls import path

from weighin.signup.views import desk, public

app_name = "signup"
HERE = "events/<slug:event_slug>"
urlpatterns = [
    path(f"{HERE}/sign-up/", public.sign_up, name="sign_up"),
    path("sign-up/<str:token>/", public.team, name="team"),
    path("sign-up/<str:token>/withdraw/", public.withdraw, name="withdraw"),
    path(f"{HERE}/sign-ups/", desk.sign_ups, name="sign_ups"),
    path(f"{HERE}/sign-ups/terms/", desk.terms, name="terms"),
    path(f"{HERE}/sign-ups/<int:number>/", desk.one, name="one"),
    path(f"{HERE}/sign-ups/<int:number>/slip/", desk.slip, name="slip"),
]
