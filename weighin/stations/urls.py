from django.urls import path

from weighin.stations.station import document, scales, taking
from weighin.stations.views import copied, stations, table

app_name = "stations"
EVENT = "events/<slug:event_slug>"
urlpatterns = [
    path(f"api/{EVENT}/station", document.station, name="api_station"),
    path(f"api/{EVENT}/slips", taking.slips, name="api_slips"),
    path(f"api/{EVENT}/checkins", taking.checkins, name="api_checkins"),
    path(f"{EVENT}/table/", table.scales_table, name="scales_table"),
    path(f"{EVENT}/table/worker.js", table.scales_table_worker, name="scales_table_worker"),
    path("table/<slug:event_slug>/", table.paired_table, name="paired_table"),
    path("table/<slug:event_slug>/worker.js", table.paired_table_worker, name="paired_table_worker"),
    path(f"api/{EVENT}/scales", scales.scales, name="api_scales"),
    path(f"api/{EVENT}/scales/now", scales.scales_now, name="api_scales_now"),
    path(f"api/{EVENT}/readings", scales.readings, name="api_readings"),
    path(f"{EVENT}/slips/copied/", copied.slips_copied, name="slips_copied"),
    path(f"{EVENT}/stations/", stations.stations, name="stations"),
    path(f"{EVENT}/stations/<int:station_pk>/withdraw/", stations.station_withdraw, name="station_withdraw"),
]
