from django.urls import path

from weighin.accounts import views

app_name = "accounts"
urlpatterns = [
    path("sign-in/", views.sign_in, name="sign_in"),
    path("sign-out/", views.sign_out, name="sign_out"),
    path("password/", views.password, name="password"),
]
