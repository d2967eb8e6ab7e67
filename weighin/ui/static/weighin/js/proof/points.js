/* The points of every boat at one event. */
import { ONE, exact } from "./decimal.js";

const KG_PER_LB = exact("0.45359237");

/** @param {ProofRules} rules @param {number} place */
function forPlace(rules, place) {
  const table = rules.none("points_table") ? null : rules.exacts("points_table");
  /** @type {bigint} */
  let points;
  if (!table) points = rules.exact("points_first") - BigInt(place - 1) * rules.exact("points_step");
  else if (place <= table.length) points = table[place - 1];
  else points = table[table.length - 1] - BigInt(place - table.length) * rules.exact("points_step");
  const floor = rules.exact("points_floor");
  return points > floor ? points : floor;
}

/** Whole pounds of a total, rounded down. @param {bigint} total @param {Unit} unit */
function wholePounds(total, unit) {
  if (total <= 0n) return 0n;
  return unit === "kg" ? total / KG_PER_LB : total / ONE;
}

/** @param {ProofRules} rules @param {TeamSum[]} list @param {Unit} unit */
export function pointsOf(rules, list, unit) {
  const ranked = list.filter((one) => one.place !== null);
  const placed = new Map(ranked.map((one) => [one.team.boat, forPlace(rules, one.place || 1)]));
  const least = placed.size ? [...placed.values()].reduce((a, b) => (a < b ? a : b)) : rules.exact("points_floor");
  const largest = ranked.map((one) => one.bigFish).reduce((a, b) => (a === null ? b : b === null || a > b ? a : b), null);
  return new Map(list.map((one) => {
    let points = placed.get(one.team.boat) ?? 0n;
    if (one.place !== null) {
      points += rules.exact("points_per_pound") * wholePounds(one.total, unit);
      if (largest !== null && one.bigFish === largest) points += rules.exact("points_big_fish");
    } else if (one.status === "no_fish") points = rules.text("points_no_fish") === "last" ? least : rules.exact("points_no_fish");
    else if (one.status === "not_weighed") points = rules.exact("points_not_weighed");
    else if (one.status === "absent" && !rules.none("points_absent_below_last")) {
      const below = least - rules.exact("points_absent_below_last");
      points = below > 0n ? below : 0n;
    }
    return [one.team.boat, points];
  }));
}
