from django.urls import path

from weighin.slips.views import pads, scales, settling, slips

app_name = "slips"
EVENT = "events/<slug:event_slug>"
SLIPS = f"{EVENT}/slips"
urlpatterns = [
    path(f"{SLIPS}/", slips.slips, name="slips"),
    path(f"{SLIPS}/new/", slips.slips_new, name="slips_new"),
    path(f"{SLIPS}/new/so-far/", slips.slip_so_far, name="slip_so_far"),
    path(f"{SLIPS}/<int:number>/", slips.slip, name="slip"),
    path(f"{SLIPS}/<int:number>/correct/", slips.slip_correct, name="slip_correct"),
    path(f"{SLIPS}/<int:number>/void/", slips.slip_void, name="slip_void"),
    path(f"{SLIPS}/<int:number>/swap/", slips.slip_swap, name="slip_swap"),
    path(f"{SLIPS}/<int:number>/counts/", slips.slip_counts, name="slip_counts"),
    path(f"{EVENT}/pads/", pads.pads, name="pads"),
    path(f"{EVENT}/roll/<int:day>/<int:boat>/settle/", settling.roll_settle, name="roll_settle"),
    path(f"{EVENT}/scales/", scales.scales, name="scales"),
]
