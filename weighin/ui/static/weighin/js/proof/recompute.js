/* A whole result from a proof alone: every slip scored, every team ranked, paid and given its points. */
import { readWeight } from "../scoring/weights.js";
import { gettext } from "../site/text.js";
import { NoFigure, amount, exact, plain } from "./decimal.js";
import { calendarOf } from "./moments.js";
import { purseOf, sidePotOf } from "./money.js";
import { placesOf } from "./places.js";
import { pointsOf } from "./points.js";
import { slipsOf, whole } from "./slips.js";

const ROSTER = ["entered", "withdrawn", "absent", "disqualified"];
const WINS = ["big_fish", "total", "youth_total", "first_limit"];

/** @param {Record<string, string | null>} written @returns {ProofRules} */
function rulesOf(written) {
  /** @param {string} key */
  const text = (key) => {
    const found = written[key];
    if (typeof found !== "string") throw new NoFigure(key);
    return found;
  };
  /** @param {string} key */
  const list = (key) => text(key).split(",").map((one) => one.trim());
  return {
    text, list,
    none: (key) => written[key] === null,
    whole: (key) => {
      if (!/^\d{1,9}$/.test(text(key))) throw new NoFigure(key);
      return Number(text(key));
    },
    exact: (key) => exact(text(key)),
    exacts: (key) => list(key).map(exact),
  };
}

/* Keys that have to be one of a few words, and those that hold weights; the others are read where they are asked for. */
/** @type {[string, string[]][]} */
const CHOICES = [
  ["dead_fish", ["penalty", "not_weighed", "both"]], ["dead_fish_big_fish", ["yes", "no"]], ["short_fish", ["penalty", "lose_largest", "lose_day"]],
  ["over_limit", ["disqualify_day", "remove_largest", "penalty"]], ["late_reduces_big_fish", ["yes", "no"]], ["negative_totals", ["floor", "keep"]],
];
const WEIGHTS = ["bag_tare", "short_fish_penalty", "over_limit_penalty", "late_penalty_per_minute", "live_fish_bonus"];

/** Throws where a rule that scores cannot be read, so that no slip is blamed for it. @param {ProofRules} rules @param {Unit} unit */
function checkRules(rules, unit) {
  rules.whole("fish_limit");
  if (!rules.none("late_disqualify_after_minutes")) amount(rules.text("late_disqualify_after_minutes"));
  amount(rules.text("late_grace_minutes"));
  for (const [key, choices] of CHOICES) if (!choices.includes(rules.text(key))) throw new NoFigure(key);
  for (const key of WEIGHTS) readWeight(rules.text(key), unit);
  for (const one of rules.list("dead_fish_penalty")) readWeight(one, unit);
}

/** @param {Proof} proof @param {(what: string, why: string) => void} problem */
function teamsOf(proof, problem) {
  /** @type {Map<number, ProofTeam>} */
  const teams = new Map();
  for (const row of proof.teams) {
    const boat = row && typeof row.boat === "number" ? row.boat : gettext("without a number");
    try {
      if (teams.has(whole(row.boat, 1)) || !ROSTER.includes(row.status) || typeof row.team !== "string" || (row.lot !== null && whole(row.lot) < 0)) throw new NoFigure();
      if (typeof row.paid !== "boolean" || typeof row.big_fish_pot !== "boolean") throw new NoFigure();
      teams.set(row.boat, row);
    } catch {
      problem(gettext("team of boat %(boat)s", { boat }), gettext("it cannot be read"));
    }
  }
  return teams;
}

/** Money, with its cents. @param {bigint} value */
const money = (value) => plain(value, 2);
/** @param {bigint | null} value */
const weight = (value) => (value === null ? null : plain(value));

/** @param {CountingSlip} slip */
const dayOf = ({ day, fish, score }) => ({
  day, lost: score.lost, fish, weighed: score.weighed, gross: plain(score.net), bonus: plain(score.bonus), total: plain(score.total),
  big_fish: weight(score.bigFish), deductions: score.deductions.map((line) => ({ reason: line.reason, count: line.count, amount: plain(line.amount) })),
});

/**
 * The result in the form that the proof has it in, and each row that says nothing sound.
 * @param {Proof} proof @returns {{result: ProofResult | null, problems: ProofDifference[]}}
 */
export function recompute(proof) {
  /** @type {ProofDifference[]} */
  const problems = [];
  /** @param {string} what @param {string} why */
  const problem = (what, why) => problems.push({ what, lines: [why] });
  try {
    const rules = rulesOf(proof.rules);
    checkRules(rules, proof.event.weight_unit);
    const teams = teamsOf(proof, problem), calendar = calendarOf(proof);
    const cut = rules.none("cut_after_day") ? 0 : rules.whole("cut_after_day");
    const { current, first } = slipsOf(proof, teams, calendar, cut, problem);
    const list = placesOf(rules, teams, current, first, calendar.fished);
    const purse = purseOf(rules, list, amount(proof.event.entry_fee), amount(proof.event.added_money));
    const points = pointsOf(rules, list, proof.event.weight_unit);
    const order = new Map(list.map((one, at) => [one.team.boat, at]));
    const pots = proof.side_pots.flatMap((pot) => {
      try {
        if (!WINS.includes(pot.wins) || !Array.isArray(pot.paid)) throw new NoFigure();
        return [sidePotOf(rules, list, pot)];
      } catch {
        problem(gettext("side pot %(name)s", { name: String(pot?.name) }), gettext("it cannot be read"));
        return [];
      }
    });
    return { problems, result: {
      standings: list.map((one) => ({
        place: one.place, tied: one.tied, boat: one.team.boat, team: one.team.team, status: one.status, fish: one.fish, alive: one.alive, dead: one.dead,
        weighed: one.weighed, gross: plain(one.gross), penalty: plain(one.penalty), bonus: plain(one.bonus), total: plain(one.total), big_fish: weight(one.bigFish),
        payout: money(purse.prizes.get(one.team.boat) || 0n), big_fish_payout: money(purse.potPrizes.get(one.team.boat) || 0n),
        points: Number(plain(points.get(one.team.boat) || 0n)), days: one.days.map(dayOf),
      })),
      purse: {
        paid_entries: purse.paidEntries, purse: money(purse.purse), places_paid: purse.places, unclaimed: money(purse.unclaimed),
        big_fish_pot: money(purse.pot), big_fish_pot_unclaimed: money(purse.potUnclaimed),
      },
      side_pots: pots.map((pot) => ({
        name: pot.name, amount: money(pot.amount), unclaimed: money(pot.unclaimed),
        payouts: [...pot.prizes].sort(([a, one], [b, other]) => (one === other ? (order.get(a) || 0) - (order.get(b) || 0) : one > other ? -1 : 1))
          .map(([boat, paid]) => ({ boat, amount: money(paid) })),
      })),
    } };
  } catch {
    problem(gettext("the event, its rules or its clock"), gettext("they cannot be read, so nothing can be worked out again"));
    return { problems, result: null };
  }
}
