/* The slips of a proof: which are current, which were first, and what each comes to. A row that says nothing sound is named. */
import { rules as scoringRules, score } from "../scoring/score.js";
import { ONE as SCALE_ONE } from "../scoring/weights.js";
import { gettext } from "../site/text.js";
import { fault } from "../slip/words.js";
import { ONE, NoFigure, amount, exact } from "./decimal.js";
import { minutesLate } from "./moments.js";

/** A row that cannot be read; its message says why, where that is known. */
class NoRow extends Error {}

/** @param {unknown} value @param {number} [least] */
export function whole(value, least = 0) {
  if (typeof value !== "number" || !Number.isSafeInteger(value) || value < least) throw new NoRow();
  return value;
}

/** What ``read`` gives of a value that may be null. @template T @param {unknown} value @param {(value: unknown) => T} read */
const orNull = (value, read) => (value === null || value === undefined ? null : read(value));

/** @param {unknown} value */
function yesOrNo(value) {
  if (typeof value !== "boolean") throw new NoRow();
  return value;
}

/** A weight as the scoring reads it. @param {unknown} text */
function weight(text) {
  const found = amount(text);
  if (found % (ONE / SCALE_ONE)) throw new NoFigure(String(text));
  return found / (ONE / SCALE_ONE);
}

/** @param {unknown} value */
const minutes = (value) => (typeof value === "number" ? amount(String(value)) : amount(value));

/** What a row says of coming in. @param {Record<string, any>} row @param {import("./moments.js").ProofCalendar} calendar */
function cameIn(row, calendar) {
  const day = whole(row.day, 1);
  return {
    checkedIn: orNull(row.checked_in, (text) => calendar.read(day, text)),
    minutesLate: orNull(row.minutes_late, whole),
    excused: orNull(row.excused_minutes, minutes),
  };
}

/** @param {number} boat @param {number} day */
const key = (boat, day) => `${boat} ${day}`;

/**
 * The first time or minutes of each boat and day, and the excuse said last.
 * @param {Proof} proof @param {import("./moments.js").ProofCalendar} calendar @param {(what: string, why: string) => void} problem
 */
function arrivals(proof, calendar, problem) {
  /** @type {Map<string, ReturnType<typeof cameIn>>} */
  const found = new Map();
  proof.checkins.forEach((row, at) => {
    try {
      const said = cameIn(row, calendar), name = key(whole(row.boat), row.day), before = found.get(name);
      const timed = before && (before.checkedIn !== null || before.minutesLate !== null) ? before : said;
      found.set(name, { checkedIn: timed.checkedIn, minutesLate: timed.minutesLate, excused: said.excused ?? before?.excused ?? null });
    } catch {
      problem(gettext("check-in %(number)s of the list", { number: at + 1 }), gettext("it cannot be read"));
    }
  });
  return found;
}

/** @param {Scored} found @returns {ExactScore} */
const exactly = (found) => ({
  net: exact(found.net), bonus: exact(found.bonus), total: exact(found.total), onScale: found.onScale, weighed: found.weighed, lost: found.lost,
  bigFish: found.bigFish === null ? null : exact(found.bigFish),
  deductions: found.deductions.map((line) => ({ ...line, amount: exact(line.amount) })),
});

/**
 * @param {Proof} proof @param {Map<number, ProofTeam>} teams @param {import("./moments.js").ProofCalendar} calendar
 * @param {number} cut the day of the cut, or 0 @param {(what: string, why: string) => void} problem
 * @returns {{current: CountingSlip[], first: CountingSlip[]}}
 */
export function slipsOf(proof, teams, calendar, cut, problem) {
  const unit = proof.event.weight_unit;
  /** @type {Record<string, string>} */
  const written = Object.fromEntries(Object.entries(proof.rules).map(([name, text]) => [name, text ?? "none"]));
  // The proof's weights are plain decimals in pounds or kilograms, those of its rules as the event writes weights
  const book = { ...scoringRules(written, unit), reads: weight };
  const came = arrivals(proof, calendar, problem);
  const replaced = new Set(proof.slips.map((row) => row?.replaces).filter((number) => typeof number === "number"));
  /** @type {CountingSlip[]} */
  const current = [];
  /** @type {Map<string, {number: number, slip: CountingSlip | null}>} */
  const first = new Map();
  const numbers = new Set();

  /** @param {Record<string, any>} row @param {ProofTeam} team @returns {[bigint, bigint]} */
  function late(row, team) {
    const own = cameIn(row, calendar), table = came.get(key(row.boat, row.day));
    const said = own.checkedIn !== null || own.minutesLate !== null || !table ? own : { ...table, excused: own.excused ?? table.excused };
    if (said.checkedIn === null) return [BigInt(said.minutesLate || 0), 1n];
    return minutesLate(said.checkedIn, calendar.due(row.day, team.flight), said.excused ?? 0n, ONE);
  }

  /** @param {Record<string, any>} row @param {ProofTeam} team */
  function scored(row, team) {
    const typed = /** @type {Typed} */ ({
      boat: row.boat, day: row.day, fish: whole(row.fish), alive: whole(row.alive), dead: whole(row.dead), short: whole(row.short),
      gross: row.gross, tare: row.tare, big_fish: row.big_fish, extra_penalty: row.extra_penalty, big_fish_alive: orNull(row.big_fish_alive, yesOrNo),
      largest_weights: row.largest_weights || [], extra_penalty_reason: "-", disqualified_reason: yesOrNo(row.disqualified) ? "-" : "", late: late(row, team),
    });
    return { typed, found: score(book, typed) };
  }

  for (const row of proof.slips) {
    try {
      const number = whole(row.slip), day = whole(row.day, 1), team = teams.get(whole(row.boat, 1));
      if (numbers.has(number) || !team || !calendar.fished.includes(day)) throw new NoRow();
      numbers.add(number);
      if (row.void === true) continue;
      const { typed, found } = scored(row, team), isCurrent = !replaced.has(number);
      if ("faults" in found && isCurrent) throw new NoRow(found.faults.map((one) => fault(one, unit)).join(" "));
      const slip = "faults" in found ? null : { boat: team.boat, day, fish: typed.fish, alive: typed.alive || 0, dead: typed.dead || 0, weighed: orNull(row.weighed, (text) => calendar.read(day, text)), score: exactly(found) };
      const before = first.get(key(team.boat, day));
      if (day <= cut && (!before || before.number > number)) first.set(key(team.boat, day), { number, slip });
      if (slip && isCurrent) current.push(slip);
    } catch (error) {
      const number = row && typeof row.slip === "number" ? row.slip : gettext("without a number");
      problem(gettext("slip %(number)s", { number }), (error instanceof NoRow && error.message) || gettext("it cannot be read"));
    }
  }
  // A first reading that cannot be scored any more, since due times moved, gives way to what stands of that boat and day
  const readings = [...first].flatMap(([name, { slip }]) => (slip ? [slip] : current.filter((one) => key(one.boat, one.day) === name)));
  return { current, first: readings };
}
