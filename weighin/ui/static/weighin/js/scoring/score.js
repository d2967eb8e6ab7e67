/* The scoring of one slip on the tablet, as it is typed: the same rules as weighin/rules, to the last digit.

   rules(written, unit)    the rule sheet: every key is read where a rule asks for it, as what it asks for
   score(book, slip)       {faults: [{field, code, …}]} or {net, deductions, bonus, total, onScale, weighed, bigFish, lost,
                           minutes}, weights as text
   onScale(book, slip)     how many fish go on the scale; removed(book, slip) how many come off */
import { ONE, Unreadable, digits, plain, readWeight } from "./weights.js";

/** @param {Record<string, string>} written @param {Unit} unit @returns {RuleBook} */
export function rules(written, unit) {
  /** @param {unknown} text */
  const weight = (text) => readWeight(text, unit);
  return {
    unit,
    reads: weight,
    is: (key, value) => written[key] === value,
    whole: (key) => Number(written[key]),
    minutes: (key) => (written[key] === "none" ? null : digits(written[key])),
    weight: (key) => weight(written[key]),
    weights: (key) => written[key].split(",").map(weight),
  };
}

/** The slip as typed: counts as numbers, weights as text, lateness in whole milliseconds or as a fraction of minutes. @param {RuleBook} book @param {Typed} slip */
function read(book, slip) {
  /** @type {ScoringFault[]} */
  const faults = [], [late, per] = slip.late ?? [BigInt(slip.late_ms || 0), 60000n];
  /** @template T @param {string} field @param {() => T} work @param {T} otherwise */
  function tried(field, work, otherwise) {
    try { return work(); } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      faults.push({ field, code: error.code });
      return otherwise;
    }
  }
  /** @param {"gross" | "tare" | "big_fish" | "extra_penalty"} field */
  const weight = (field) => (slip[field] ? tried(field, () => book.reads(slip[field]), null) : null);
  return {
    faults,
    largest: tried("largest_weights", () => (slip.largest_weights || []).map(book.reads), []),
    gross: weight("gross"), tare: weight("tare"), big: weight("big_fish"), extra: weight("extra_penalty"),
    fish: slip.fish, alive: slip.alive || 0, dead: slip.dead || 0, short: slip.short || 0,
    bigAlive: slip.big_fish_alive ?? null,
    extraReason: slip.extra_penalty_reason || "", ruling: slip.disqualified_reason || "",
    late: (late * ONE) / per, lateRest: (late * ONE) % per,
  };
}

/** @typedef {ReturnType<typeof read>} ReadSlip */

/** @param {RuleBook} book @param {Counts} slip */
export function onScale(book, slip) {
  const alive = slip.alive || 0, short = slip.short || 0;
  const legal = book.is("dead_fish", "penalty") ? slip.fish - short : alive - Math.min(short, alive);
  return book.is("over_limit", "penalty") ? Math.min(legal, book.whole("fish_limit")) : legal;
}

/** @param {RuleBook} book @param {Counts} slip @returns {[number, number]} */
export function removed(book, slip) {
  const over = book.is("over_limit", "remove_largest") ? Math.max(0, slip.fish - book.whole("fish_limit")) : 0;
  return [over, book.is("short_fish", "lose_largest") ? slip.short || 0 : 0];
}

/** @param {bigint[]} weights */
const sum = (weights) => weights.reduce((total, weight) => total + weight, 0n);

/** @param {RuleBook} book @param {ReadSlip} slip */
function net(book, slip) { return slip.gross === null ? 0n : slip.gross - (slip.tare === null ? book.weight("bag_tare") : slip.tare); }

/** @param {RuleBook} book @param {ReadSlip} slip */
function lostDay(book, slip) {
  if (slip.ruling) return "ruling";
  if (slip.fish > book.whole("fish_limit") && book.is("over_limit", "disqualify_day")) return "over_limit";
  if (slip.short > 0 && book.is("short_fish", "lose_day")) return "short_fish";
  const limit = book.minutes("late_disqualify_after_minutes");
  if (limit !== null && (slip.late > limit || (slip.late === limit && slip.lateRest > 0n))) return "late";
  return null;
}

/** @param {RuleBook} book @param {ReadSlip} slip */
function minutesBegun(book, slip) {
  const past = slip.late - (book.minutes("late_grace_minutes") || 0n);
  if (past < 0n || (past === 0n && slip.lateRest === 0n)) return 0;
  return Number(past / ONE) + (past % ONE > 0n || slip.lateRest > 0n ? 1 : 0);
}

/** @param {RuleBook} book @param {ReadSlip} slip @param {bigint} weighed @param {number} scale */
function removedWeights(book, slip, weighed, scale) {
  const [over, short] = removed(book, slip);
  if (over + short >= scale) return over ? [weighed, 0n] : [0n, short ? weighed : 0n];
  return [sum(slip.largest.slice(0, over)), sum(slip.largest.slice(over, over + short))];
}

/** Every fault, not the first, but nothing that hangs on what is found wrong already. @param {RuleBook} book @param {ReadSlip} slip */
function check(book, slip) {
  /** @type {ScoringFault[]} */
  const faults = [];
  /** @param {string} field @param {string} code @param {object} [more] */
  const say = (field, code, more) => faults.push({ field, code, ...more });
  /** @param {string} field */
  const right = (field) => !faults.some((fault) => fault.field === field);
  if (slip.fish !== slip.alive + slip.dead) say("fish", "against_counts");
  if (slip.short > slip.fish) say("short", "more_short", { short: slip.short, fish: slip.fish });
  const counted = !faults.length;
  const weighed = net(book, slip), scale = onScale(book, slip), lost = lostDay(book, slip) !== null;
  if (weighed < 0n) say("gross", "under_bag");
  else if (counted && scale > 0 && slip.gross === null) say("gross", "not_weighed");
  else if (counted && scale === 0 && weighed > 0n) say("gross", "none_on_scale");
  if (slip.largest.some((weight, at) => at && weight > slip.largest[at - 1])) say("largest_weights", "not_sorted");
  else if (right("gross") && slip.gross !== null && sum(slip.largest) > weighed) say("largest_weights", "over_net");
  const taken = removed(book, slip).reduce((a, b) => a + b, 0);
  if (counted && !lost && slip.largest.length < taken && taken < scale) say("largest_weights", "largest_missing", { taken });
  const whole = counted && right("gross") && right("largest_weights");
  faults.push(...checkBigFish(slip, counted, whole && (lost ? weighed : weighed - sum(removedWeights(book, slip, weighed, scale)))));
  if (slip.extra !== null && !slip.extraReason.trim()) say("extra_penalty", "no_reason");
  return faults;
}

/** ``left`` is the weight that counts, or false when it cannot be told. @param {ReadSlip} slip @param {boolean} counted @param {bigint | false} left */
function checkBigFish(slip, counted, left) {
  const faults = [];
  if (counted && slip.big !== null && slip.fish === 0) return [{ field: "big_fish", code: "no_fish" }];
  const wrong = (slip.bigAlive === false && slip.dead === 0) || (slip.bigAlive === true && slip.alive === 0);
  if (counted && wrong) faults.push({ field: "big_fish_alive", code: "against_counts" });
  else if (counted && slip.big !== null && slip.bigAlive === null && slip.dead > 0) faults.push({ field: "big_fish_alive", code: "was_it_alive" });
  if (slip.big !== null && left !== false && slip.big > left) faults.push({ field: "big_fish", code: "over_rest" });
  return faults;
}

/** What the dead fish cost, the last step again and again. @param {bigint[]} steps @param {number} dead */
const forDead = (steps, dead) => sum(steps.slice(0, dead)) + BigInt(Math.max(0, dead - steps.length)) * steps[steps.length - 1];

/** @param {RuleBook} book @param {Typed} typed @returns {Score} */
export function score(book, typed) {
  const slip = read(book, typed);
  const faults = slip.faults.length ? slip.faults : check(book, slip);
  if (faults.length) return { faults };
  const weighed = net(book, slip), scale = onScale(book, slip), lost = lostDay(book, slip);
  const minutes = minutesBegun(book, slip);
  const answer = { net: plain(weighed), deductions: [], bonus: "0", total: "0", onScale: scale, weighed: 0, bigFish: null, lost, minutes };
  if (lost) return answer;
  const limit = book.whole("fish_limit"), over = Math.max(0, slip.fish - limit);
  const late = BigInt(minutes) * book.weight("late_penalty_per_minute");
  let [offLimit, offShort] = removedWeights(book, slip, weighed, scale);
  if (book.is("over_limit", "penalty")) offLimit = BigInt(over) * book.weight("over_limit_penalty");
  if (book.is("short_fish", "penalty")) offShort = BigInt(slip.short) * book.weight("short_fish_penalty");
  const dead = book.is("dead_fish", "not_weighed") ? 0 : slip.dead;
  /** @type {[string, number, bigint][]} */
  const each = [
    ["over_limit", over, offLimit], ["short_fish", slip.short, offShort], ["dead_fish", dead, forDead(book.weights("dead_fish_penalty"), dead)],
    ["late", minutes, late], ["extra", slip.extra === null ? 0 : 1, slip.extra ?? 0n],
  ];
  const lines = each.filter(([, count]) => count);
  const bonus = book.weight("live_fish_bonus") * BigInt(Math.min(slip.alive - Math.min(slip.short, slip.alive), limit));
  let total = weighed - sum(lines.map(([, , amount]) => amount)) + bonus;
  if (book.is("negative_totals", "floor") && total < 0n) total = 0n;
  const alive = slip.bigAlive ?? slip.dead === 0;
  let big = slip.big;
  if (big !== null && !alive && !(book.is("dead_fish", "penalty") && book.is("dead_fish_big_fish", "yes"))) big = null;
  if (big !== null && book.is("late_reduces_big_fish", "yes")) big = big > late ? big - late : null;
  const taken = removed(book, slip).reduce((a, b) => a + b, 0);
  return {
    ...answer,
    deductions: lines.map(([reason, count, amount]) => ({ reason, count, amount: plain(amount) })),
    bonus: plain(bonus), total: plain(total), weighed: Math.max(0, scale - taken), bigFish: big === null ? null : plain(big),
  };
}
