/* Whose slip it is: the team, when it checked in and how late, and the slip that it has already. */
import { clock } from "../device/times.js";
import { at } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { inShort, slipNamed } from "../slip/words.js";

/**
 * ``late`` is how late in words; ``there`` a slip of the boat and day beside the one that is written.
 * @param {number | null} boat @param {Entry | null | undefined} entry
 * @param {{known: boolean, checkin: CheckIn | undefined, late: string, there: Standing | undefined, zone: string | undefined, correct: (target: Standing) => void}} about
 */
export function showTeam(boat, entry, { known, checkin, late, there, zone, correct }) {
  const parts = entry ? [...entry.anglers] : [];
  if (entry && entry.flight) parts.push(gettext("flight %(flight)s", { flight: entry.flight }));
  if (checkin && checkin.checked_in) parts.push(gettext("checked in %(time)s", { time: clock(checkin.checked_in, zone) }));
  else if (entry && !late) parts.push(gettext("no check-in yet"));
  at("team").textContent = entry ? entry.team : boat === null || !known ? "" : gettext("No boat %(boat)s on the list", { boat });
  at("team-note").textContent = entry ? parts.join(", ") : "";
  at("late").textContent = entry && late ? `${late}.` : "";
  at("has-slip").hidden = !there;
  if (!there) return;
  const named = slipNamed(there.number, gettext("a slip on this tablet"));
  at("has-slip-says").textContent = gettext("Boat %(boat)s has %(slip)s already: %(says)s.", { boat, slip: named, says: inShort(there.slip) });
  at("has-slip-correct").onclick = () => correct(there);
}

/** What the big button does. @param {number | null} boat @param {boolean} editing @param {boolean} correcting */
export function keepWords(boat, editing, correcting) {
  if (correcting) return gettext("Save the correction");
  if (boat === null) return editing ? gettext("Save the slip again") : gettext("Save the slip");
  return editing ? gettext("Save boat %(boat)s’s slip again", { boat }) : gettext("Save boat %(boat)s’s slip", { boat });
}
