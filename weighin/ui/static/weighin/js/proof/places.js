/* Teams over the event and their places: sums, status, the cut, ties. */
import { sum } from "./decimal.js";

const STATUSES = ["ranked", "in_question", "no_fish", "not_weighed", "absent", "disqualified", "withdrawn"];

/** @param {bigint} a @param {bigint} b */
const larger = (a, b) => (a > b ? a : b);

/** Every team's sums; of a day with two slips neither counts, and the cut takes the larger. @param {Map<number, ProofTeam>} teams @param {CountingSlip[]} slips @returns {TeamSum[]} */
function sumsOf(teams, slips) {
  /** @type {Map<number, Map<number, CountingSlip[]>>} */
  const byBoat = new Map([...teams.keys()].map((boat) => [boat, new Map()]));
  for (const slip of slips) {
    const own = byBoat.get(slip.boat) || new Map();
    own.set(slip.day, [...(own.get(slip.day) || []), slip]);
  }
  return [...teams.values()].map((team) => {
    const own = [...(byBoat.get(team.boat) || [])].sort(([a], [b]) => a - b);
    const days = own.filter(([, found]) => found.length === 1).map(([, found]) => found[0]);
    const doubled = new Map(own.filter(([, found]) => found.length > 1).map(([day, found]) => [day, found.map((slip) => slip.score.total).reduce(larger)]));
    /** @param {(slip: CountingSlip) => number} of */
    const count = (of) => days.reduce((total, slip) => total + of(slip), 0);
    const bigFish = days.map((slip) => slip.score.bigFish).reduce((a, b) => (a === null ? b : b === null ? a : larger(a, b)), null);
    return {
      team, days, doubled, bigFish, status: statusOf(team, days, doubled.size > 0), place: null, tied: false,
      fish: count((slip) => slip.fish), alive: count((slip) => slip.alive), dead: count((slip) => slip.dead), weighed: count((slip) => slip.score.weighed),
      gross: sum(days.map((slip) => slip.score.net)), bonus: sum(days.map((slip) => slip.score.bonus)), total: sum(days.map((slip) => slip.score.total)),
      penalty: sum(days.flatMap((slip) => slip.score.deductions.map((line) => line.amount))), liveFish: count((slip) => (slip.score.lost ? 0 : slip.alive)),
    };
  });
}

/** @param {ProofTeam} team @param {CountingSlip[]} days @param {boolean} inQuestion */
function statusOf(team, days, inQuestion) {
  if (team.status !== "entered") return team.status;
  if (inQuestion) return "in_question";
  if (!days.length) return "not_weighed";
  const withFish = days.filter((slip) => slip.fish > 0);
  if (!withFish.length) return "no_fish";
  return withFish.every((slip) => slip.score.lost) ? "disqualified" : "ranked";
}

/** Boats whose total through the day of the cut is at least the ``keep``-th largest. @param {TeamSum[]} sums @param {number} day @param {number} keep */
function keptByCut(sums, day, keep) {
  const entered = sums.filter((one) => one.team.status === "entered");
  /** @param {TeamSum} one */
  const through = (one) => sum(one.days.filter((slip) => slip.day <= day).map((slip) => slip.score.total)) + sum([...one.doubled].filter(([number]) => number <= day).map(([, total]) => total));
  if (entered.length <= keep) return new Set(entered.map((one) => one.team.boat));
  const line = entered.map(through).sort((a, b) => (a < b ? 1 : -1))[keep - 1];
  return new Set(entered.filter((one) => through(one) >= line).map((one) => one.team.boat));
}

/** The figure of each tie-breaker, the larger ahead. @param {number[]} fished @returns {Record<string, (one: TeamSum) => bigint>} */
function tieBreakers(fished) {
  /** @param {TeamSum} one @param {number} day */
  const onDay = (one, day) => sum(one.days.filter((slip) => slip.day === day).map((slip) => slip.score.total));
  return {
    big_fish: (one) => one.bigFish ?? 0n,
    live_fish: (one) => BigInt(one.liveFish),
    fish_count: (one) => BigInt(one.weighed),
    fewest_deductions: (one) => -one.penalty,
    first_day: (one) => onDay(one, fished[0]),
    last_day: (one) => onDay(one, fished[fished.length - 1]),
    lot: (one) => -BigInt(one.team.lot ?? 10 ** 12),
  };
}

/**
 * Every team in the order of the list, with its place.
 * @param {ProofRules} rules @param {Map<number, ProofTeam>} teams @param {CountingSlip[]} current @param {CountingSlip[]} first @param {number[]} fished
 */
export function placesOf(rules, teams, current, first, fished) {
  const sums = sumsOf(teams, current), breakers = tieBreakers(fished);
  const values = rules.list("ties").filter((name) => name !== "share").map((name) => breakers[name]);
  /** @type {Set<number> | null} */
  let onward = null;
  if (!rules.none("cut_after_day")) {
    const day = rules.whole("cut_after_day"), keep = rules.whole("cut_keep");
    const kept = keptByCut(sums, day, keep), before = keptByCut(sumsOf(teams, first), day, keep);
    const after = new Set(current.filter((slip) => slip.day > day).map((slip) => slip.boat));
    // Who made it by the first readings and went out stays, though the line moved since
    onward = new Set([...kept, ...[...before].filter((boat) => after.has(boat))]);
  }
  /** @param {TeamSum} one */
  const standing = (one) => [onward && !onward.has(one.team.boat) ? -1n : 0n, one.total, ...values.map((value) => value(one))];
  const ranked = sums.filter((one) => one.status === "ranked").map((one) => ({ one, by: standing(one) }));
  /** @param {bigint[]} a @param {bigint[]} b */
  const ahead = (a, b) => { const at = a.findIndex((value, place) => value !== b[place]); return at < 0 ? 0 : a[at] > b[at] ? -1 : 1; };
  ranked.sort((a, b) => ahead(a.by, b.by) || a.one.team.boat - b.one.team.boat);
  ranked.forEach((row, at) => {
    const before = ranked[at - 1], same = before && ahead(before.by, row.by) === 0;
    row.one.place = same ? before.one.place : at + 1;
    if (same) row.one.tied = before.one.tied = true;
  });
  const rest = STATUSES.slice(1).flatMap((status) => sums.filter((one) => one.status === status).sort((a, b) => a.team.boat - b.team.boat));
  return [...ranked.map((row) => row.one), ...rest];
}
