from django.urls import path

from weighin.scale import station, table_page, views
from weighin.scale.line.urls import urlpatterns as line_addresses
from weighin.scale.pads.urls import urlpatterns as pad_addresses
from weighin.scale.pairing.urls import urlpatterns as pairing_addresses
from weighin.scale.roll.urls import urlpatterns as roll_addresses
from weighin.scale.scales.urls import urlpatterns as scale_addresses

app_name = "scale"
urlpatterns = [
    path("api/events/<slug:event_slug>/station", station.station, name="api_station"),
    path("api/events/<slug:event_slug>/slips", station.slips, name="api_slips"),
    path("api/events/<slug:event_slug>/checkins", station.checkins, name="api_checkins"),
    path("events/<slug:event_slug>/table/", table_page.scales_table, name="scales_table"),
    path("events/<slug:event_slug>/table/worker.js", table_page.scales_table_worker, name="scales_table_worker"),
    path("table/<slug:event_slug>/", table_page.paired_table, name="paired_table"),
    path("table/<slug:event_slug>/worker.js", table_page.paired_table_worker, name="paired_table_worker"),
    path("events/<slug:event_slug>/slips/", views.slips, name="slips"),
    path("events/<slug:event_slug>/slips/copied/", views.slips_copied, name="slips_copied"),
    path("events/<slug:event_slug>/slips/new/", views.slips_new, name="slips_new"),
    path("events/<slug:event_slug>/slips/new/so-far/", views.slip_so_far, name="slip_so_far"),
    path("events/<slug:event_slug>/slips/<int:number>/", views.slip, name="slip"),
    path("events/<slug:event_slug>/slips/<int:number>/correct/", views.slip_correct, name="slip_correct"),
    path("events/<slug:event_slug>/slips/<int:number>/void/", views.slip_void, name="slip_void"),
    path("events/<slug:event_slug>/slips/<int:number>/swap/", views.slip_swap, name="slip_swap"),
    path("events/<slug:event_slug>/slips/<int:number>/counts/", views.slip_counts, name="slip_counts"),
    *line_addresses,
    *pad_addresses,
    *pairing_addresses,
    *roll_addresses,
    *scale_addresses,
]
