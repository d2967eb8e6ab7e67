from django.urls import path

from weighin.accounts.views import account, signing_in

app_name = "accounts"
urlpatterns = [
    path("sign-in/", signing_in.sign_in, name="sign_in"),
    path("sign-in/step/", signing_in.sign_in_step, name="sign_in_step"),
    path("sign-out/", signing_in.sign_out, name="sign_out"),
    path("password/", account.password, name="password"),
    path("devices/", account.devices, name="devices"),
    path("second-factor/", account.second_factor, name="second_factor"),
]
