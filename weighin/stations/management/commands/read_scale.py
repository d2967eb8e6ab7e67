"""Listen to a scale's serial port and tell the site what it reads, for the tablets at the table."""

import signal
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import serial
from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.events.access import find
from weighin.rules.faults import Faults
from weighin.scales.domain.layouts import LAYOUTS, OWN, Layout, layout_of
from weighin.scales.domain.reading import Reading
from weighin.scales.services.port import Ear, Site, SiteRefused
from weighin.stations.services.signatures import showing
from weighin.stations.services.stations import make_station

BY = "command line"
AGAIN_SECONDS = 2.0
READ_SECONDS = 0.1


class Command(BaseCommand):
    help = (
        "Read the scale on a serial PORT and tell the site every change, so that a tablet at the table can take the "
        "reading with a key. With --station the station is paired here, in the database of this machine; with "
        "--token-file the site may be elsewhere. Ends on Ctrl-C or SIGTERM."
    )
    # It talks to a site that may be elsewhere: nothing here needs this machine's tables, except --station
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("port", help="the serial port, such as COM3 or /dev/ttyUSB0")
        parser.add_argument("--event", required=True, help="the event’s slug")
        parser.add_argument("--scale", default="", help="the scale's name; may be left out when the event has one")
        who = parser.add_mutually_exclusive_group(required=True)
        who.add_argument("--station", help="pair a station of this name for it, in this machine's database")
        who.add_argument("--token-file", help="a file that holds a station's token")
        parser.add_argument("--site", default="http://127.0.0.1:8000", help="the site’s address")
        parser.add_argument("--baud", type=int, help="bits a second, instead of what is written of the scale")
        parser.add_argument("--layout", choices=[*LAYOUTS], help="its layout, instead of what is written of the scale")

    def handle(self, *args: Any, **options: Any) -> None:
        if not options["site"].startswith(("http://", "https://")):
            raise CommandError(f"{options['site']} is no address of a site: write it as http://192.168.0.10:8000")
        site = Site(options["site"], options["event"], showing(self._token(options), options["site"]))
        try:
            scale = _chosen(site.scales(), options["scale"])
        except SiteRefused as refused:
            raise CommandError(str(refused)) from None
        layout = _layout(scale, options)
        port = scale["port"]
        ear = Ear(layout, port["ask"], port["once"], lambda reading: site.tell(scale["name"], reading), self._say)
        self._say(f"Scale {scale['name']} on {options['port']}, layout {layout.words}. Ctrl-C ends it.")
        stop = _until_ended()
        self._listen(ear, options, port, stop)
        site.tell(scale["name"], Reading("", "", "", "silent", ""))

    def _listen(self, ear: Ear, options: dict[str, Any], said: dict[str, Any], stop: Callable[[], bool]) -> None:
        waiting = ""
        while not stop():
            try:
                with _opened(options, said) as port:
                    waiting = ""
                    while not stop():
                        ear.hear(port)
            except (serial.SerialException, OSError) as fault:
                ear.lost()
                if not waiting:
                    waiting = f"{options['port']} cannot be read ({fault}): look at the cable, and whether another program has it."
                    self._say(waiting)
                time.sleep(AGAIN_SECONDS)
            except ValueError as fault:
                raise CommandError(f"The port cannot be set so: {fault}") from None

    def _token(self, options: dict[str, Any]) -> str:
        if options["token_file"]:
            try:
                token = Path(options["token_file"]).read_text(encoding="ascii").strip()
            except (OSError, UnicodeError) as fault:
                raise CommandError(f"The token file cannot be read: {fault}") from None
            if not token:
                raise CommandError("The token file is empty: put the last line of pair_station into it.")
            return token.splitlines()[-1].strip()
        event = find(options["event"])
        if event is None:
            raise CommandError(f"There is no event {options['event']} in this machine's database.")
        try:
            return make_station(event, options["station"], ["weigh"], BY)[1]
        except Faults as found:
            raise CommandError("; ".join(fault.message for fault in found.faults)) from None

    def _say(self, words: str) -> None:
        self.stdout.write(words)
        self.stdout.flush()


def _opened(options: dict[str, Any], said: dict[str, Any]) -> serial.Serial:
    return serial.Serial(
        options["port"],
        options["baud"] or said["baud"],
        bytesize=said["data_bits"],
        parity=said["parity"],
        stopbits=said["stop_bits"],
        timeout=READ_SECONDS,
        write_timeout=AGAIN_SECONDS,
    )


def _chosen(scales: list[dict[str, Any]], name: str) -> dict[str, Any]:
    if not scales:
        raise CommandError("The event has no scale: write it down on its page of scales first.")
    names = ", ".join(scale["name"] for scale in scales)
    if not name and len(scales) > 1:
        raise CommandError(f"The event has several scales: say which with --scale ({names}).")
    found = [scale for scale in scales if not name or scale["name"].casefold() == name.strip().casefold()]
    if not found:
        raise CommandError(f"The event has no scale {name}: its scales are {names}.")
    return found[0]


def _layout(scale: dict[str, Any], options: dict[str, Any]) -> Layout:
    if options["layout"]:
        return layout_of(options["layout"])
    if scale["layout"] is None:
        raise CommandError(
            f"Nobody wrote how scale {scale['name']} speaks: say it on the page of scales, or with --layout."
        )
    if scale["layout"]["name"] == OWN:
        return layout_of(OWN, scale["layout"]["pattern"])
    return layout_of(scale["layout"]["name"])


def _until_ended() -> Callable[[], bool]:
    ended: list[int] = []

    def end(number: int, frame: Any) -> None:
        ended.append(number)

    signal.signal(signal.SIGINT, end)
    signal.signal(signal.SIGTERM, end)
    return lambda: bool(ended)
