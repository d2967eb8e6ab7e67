"""The words of the trade, each with what it means here. Common practice, no source, but where a sentence names one."""

from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _


@dataclass(frozen=True)
class Word:
    """A word of the trade: the part of the address by which sentences link to it, what it means, what can hurt."""

    key: str
    name: str | Promise
    means: str | Promise
    caution: str | Promise = ""


GROUPS: tuple[tuple[str | Promise, tuple[Word, ...]], ...] = (
    (
        _("The day"),
        (
            Word("ramp", _("Ramp"), _("Where boats go into the water. Boats are checked there before the launch.")),
            Word("flight", _("Flight"), _("Boats that launch together and are due together, so that the line stays short.")),
            Word(
                "check-in",
                _("Check-in"),
                _("The moment a boat is back, seen or reported, by the official’s clock. Lateness counts from the due time."),
                _("A weigh slip does not prove that a boat is in. See it, or note who reported it."),
            ),
            Word("boats-out", _("Boats out"), _("Boats that launched and are not checked in yet. An event does not close before.")),
            Word(
                "due",
                _("Due time"),
                _("When a flight must be back. A weather hold can move it, with the time the teams were told."),
                _("Thunder heard: stop, and clear the water and canopies. Nobody hurries for a weigh-in."),
            ),
            Word("line", _("Line"), _("The teams that wait to weigh. Bags are given only as fast as the scales can take them.")),
            Word("weigh-in", _("Weigh-in"), _("The hour in which all fish are counted, judged dead or alive, and weighed.")),
        ),
    ),
    (
        _("At the scales"),
        (
            Word("bag", _("Bag"), _("What carries a team’s fish, in water, from the boat to the scales.")),
            Word("tare", _("Tare"), _("What the empty wet bag or basket weighs. It comes off the scale reading.")),
            Word("slip", _("Slip"), _("The record of one weighing: fish, alive and dead, weight, official. It is never changed, only corrected by a new one.")),
            Word("paper-slip", _("Paper slip"), _("A numbered slip on paper for when the power goes. It is entered later under its number.")),
            Word("void", _("Void"), _("To take a slip out of the count. It stays on record with the reason.")),
            Word("test-weight", _("Test weight"), _("A weight of known size that shows whether the scale reads true (NIST Handbook 44, class III).")),
            Word("tablet", _("Tablet"), _("A device paired with the event. It keeps slips without a network and sends them by itself later.")),
        ),
    ),
    (
        _("Rules and money"),
        (
            Word("limit", _("Limit"), _("How many fish a team may weigh on a day. State and local law may allow fewer, and comes first.")),
            Word(
                "culling",
                _("Culling"),
                _("Letting a smaller fish go when a larger one is caught. Some states forbid it for some fish: ask your agency."),
            ),
            Word("cut", _("Cut"), _("After it only the best teams fish on, such as the first ten for the last day.")),
            Word("penalty", _("Penalty"), _("Weight lost for dead, short or late fish, by the event’s rules.")),
            Word("big-fish-pot", _("Big fish pot"), _("Money from the teams that paid into it, to the one with the largest fish.")),
            Word("side-pot", _("Side pot"), _("A further pot of its own, such as for the second largest fish. Teams choose to pay into it.")),
            Word("purse", _("Purse"), _("What is paid to the places: entry fees less what the club keeps, and money that was added.")),
            Word("protest", _("Protest"), _("An objection to a result, in writing, within the minutes after posting. Prizes that it could change wait.")),
            Word("provisional", _("Provisional"), _("Posted, and still open to protests. Official comes after.")),
            Word("points", _("Points"), _("What a place earns in the season. Often the worst results are dropped.")),
        ),
    ),
    (
        _("Fish and water"),
        (
            Word(
                "livewell",
                _("Livewell"),
                _("The tank in a boat that keeps the catch alive."),
                _("Insulated gloves for ice, and no dry ice in a livewell or cabin. Water treatments only as labeled and permitted."),
            ),
            Word("live-release", _("Live release"), _("Fish go back into the water alive after weighing.")),
            Word("mortality", _("Mortality"), _("The share of fish that died. It says of how many fish, and how sure that is.")),
            Word("initial-mortality", _("Initial mortality"), _("Fish dead at the scales, of all fish brought there.")),
            Word(
                "delayed-mortality",
                _("Delayed mortality"),
                _("Fish that die in the hours or days after the release. Nobody sees them at the scales; a holding study counts some."),
            ),
            Word("stop-level", _("Stop level"), _("The share of dead fish at which the club has said that it stops.")),
            Word(
                "dissolved-oxygen",
                _("Dissolved oxygen"),
                _("The oxygen in the water, in milligrams a liter (mg/L). Common practice keeps it at 5 mg/L or more."),
                _("Oxygen feeds fire: secure the cylinder, no flame, smoke, oil or grease, open it slowly."),
            ),
            Word(
                "barotrauma",
                _("Barotrauma"),
                _("Harm to a fish brought up from deep water: the gas in it swells. Many such fish die even when released."),
            ),
            Word(
                "venting",
                _("Fizzing, venting"),
                _("Letting gas out of a deep fish with a needle."),
                _("Do not vent crappie: the wound and the handling stay. Some agencies forbid venting at contests. Ask your agency."),
            ),
            Word(
                "holding-tank",
                _("Holding tank"),
                _("A tank where fish recover between the scales and the release."),
                _("A gallon weighs 8.3 lb: drain a tank, never lift it. Keep plugged-in equipment out of reach of the water."),
            ),
            Word("release", _("Release"), _("Putting the fish back, where and when, with how many were dead by then.")),
            Word("holding-study", _("Holding study"), _("Fish kept in pens for days to see how many die later.")),
        ),
    ),
)  # fmt: skip
