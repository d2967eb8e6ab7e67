from django.urls import path

from weighin.registration.views import boats, desk, draws, money, pay_outs, pots

app_name = "registration"
DESK = "events/<slug:event_slug>/desk"
DRAWS = "events/<slug:event_slug>/draws"
urlpatterns = [
    path(f"{DESK}/", desk.desk, name="desk"),
    path(f"{DESK}/look/", desk.look, name="desk_look"),
    path(f"{DESK}/boats/", boats.boats, name="desk_boats"),
    path(f"{DESK}/asks/", boats.asks, name="desk_asks"),
    path(f"{DESK}/boats/<str:team>/", boats.boat, name="desk_boat"),
    path(f"{DRAWS}/", draws.draws, name="draws"),
    path(f"{DRAWS}/sheet/", draws.sheet, name="launch_sheet"),
    path(f"{DRAWS}/shown/", draws.show, name="draws_shown"),
    path(f"{DRAWS}/<str:purpose>/draw/", draws.draw_now, name="draw_now"),
    path(f"{DRAWS}/<str:purpose>/void/", draws.void, name="draw_void"),
    path("events/<slug:event_slug>/money/", money.money, name="money"),
    path("events/<slug:event_slug>/money/other/", money.other, name="payment_other"),
    path("events/<slug:event_slug>/money/payments/<int:number>/", money.payment, name="payment"),
    path("events/<slug:event_slug>/money/receipts/<str:team>/", money.receipt, name="receipt"),
    path("events/<slug:event_slug>/money/cash-up/", pay_outs.cash_up, name="cash_up"),
    path("events/<slug:event_slug>/money/pay-outs/", pay_outs.pay_outs, name="pay_outs"),
    path("events/<slug:event_slug>/money/pay-outs/<int:number>/", pay_outs.pay_out_void, name="pay_out_void"),
    path("events/<slug:event_slug>/money/pots/new/", pots.pot_new, name="pot_new"),
    path("events/<slug:event_slug>/money/pots/<int:pot_pk>/", pots.pot, name="pot"),
]
