/* The scoring of one slip on the tablet, as it is typed: the same rules as weighin/rules, to the last digit.

   Weights are whole numbers (BigInt) of 10^-16 lb or kg, so that sums are exact and an ounce is 0.0625 lb.
   weighinScoring.rules(written, unit)  the rule sheet, from every key as written
   weighinScoring.score(rules, slip)    {faults: [{field, message}]} or {net, deductions, bonus, total, onScale, weighed,
                                        bigFish, lost, minutes}, weights as text
   weighinScoring.onScale(rules, slip)  how many fish go on the scale; weighinScoring.removed(rules, slip) how many come off */
const PLACES = 16n;
const ONE = 10n ** PLACES;
const OUNCE = ONE / 16n;
const MOST = 999n * ONE;
const PLAIN = /^(\d{1,12}(?:\.\d{1,12})?|\.\d{1,12})\s*(lbs?|kg|oz)?$/i;
const DASHED = /^(\d{1,12})\s*-\s*(.*)$/;
const WORDED = /^(?:(\d{1,12})\s*lbs?)?\s*(?:(.*?)\s*oz)?$/i;
const OUNCES = /^(?:(\d{1,12}(?:\.\d{1,12})?|\.\d{1,12})(?:\s+(\d{1,2})\/(\d{1,2}))?|(\d{1,2})\/(\d{1,2}))$/;

class Fault extends Error {}

function digits(text) {
  const [whole, part = ""] = text.split(".");
  return BigInt(whole || "0") * ONE + BigInt((part + "0".repeat(Number(PLACES))).slice(0, Number(PLACES)) || "0");
}

function example(unit) { return { lb: "9.47", "lb-oz": "9-07.5", kg: "4.295" }[unit]; }

function readWeight(text, unit) {
  const written = String(text).trim().split(/\s+/).join(" ");
  if (written.startsWith("-") || written.startsWith("\u2212")) throw new Fault("negative");
  if (written.includes(",")) throw new Fault("comma");
  const weight = unit === "lb-oz" ? readOunces(written) : readPlain(written, unit);
  if (weight > MOST) throw new Fault("too much");
  return weight;
}

function readPlain(written, unit) {
  const found = PLAIN.exec(written);
  const given = found && (found[2] || unit).toLowerCase().replace(/s$/, "");
  if (!found || given !== unit) throw new Fault("write it as " + example(unit));
  return digits(found[1]);
}

function readOunces(written) {
  const plain = PLAIN.exec(written);
  if (plain && !plain[2]) {
    if (digits(plain[1]) === 0n) return 0n;
    throw new Fault("no ounces");
  }
  const dashed = DASHED.exec(written);
  const found = dashed || WORDED.exec(written);
  if (!found || !written) throw new Fault("write it as 9-07.5");
  const text = (found[2] || "").trim();
  const named = dashed || /oz$/i.test(written);
  if (named && !text) throw new Fault("no ounces");
  return BigInt(found[1] || "0") * ONE + (text ? ounces(text) : 0n);
}

function ounces(text) {
  const found = OUNCES.exec(text);
  if (!found) throw new Fault("ounces");
  const over = found[2] || found[4], under = found[3] || found[5];
  let sixteenths = digits(found[1] || "0");
  if (over !== undefined) {
    if (!["2", "4", "8", "16"].includes(String(Number(under))) || Number(over) >= Number(under)) throw new Fault("fraction");
    if (sixteenths % ONE) throw new Fault("decimals and a fraction");
    sixteenths += (BigInt(over) * ONE) / BigInt(under);
  }
  if (sixteenths >= 16n * ONE) throw new Fault("16 ounces or more");
  return (sixteenths * OUNCE) / ONE;
}

/* A weight as text: plain decimal figures, no needless zeros. */
function plain(weight) {
  const sign = weight < 0n ? "-" : "", size = weight < 0n ? -weight : weight;
  const part = (size % ONE).toString().padStart(Number(PLACES), "0").replace(/0+$/, "");
  return sign + (size / ONE).toString() + (part ? "." + part : "");
}

function show(weight, unit) {
  const sign = weight < 0n ? "-" : "", size = weight < 0n ? -weight : weight;
  if (unit === "lb-oz") {
    const [whole, part] = plain(((size % ONE) * 16n)).split(".");
    return `${sign}${size / ONE}-${whole.padStart(2, "0")}${part ? "." + part : ""}`;
  }
  const least = unit === "kg" ? 3 : 2;
  const [whole, part = ""] = plain(size).split(".");
  return `${sign}${whole}.${part.padEnd(least, "0")}`;
}

function rules(written, unit) {
  const weight = (key) => readWeight(written[key], unit);
  const minutes = (key) => (written[key] === "none" ? null : digits(written[key]));
  return {
    unit,
    fishLimit: Number(written.fish_limit),
    bagTare: weight("bag_tare"),
    deadFish: written.dead_fish,
    deadPenalty: written.dead_fish_penalty.split(",").map((item) => readWeight(item, unit)),
    deadBigFish: written.dead_fish_big_fish === "yes",
    shortFish: written.short_fish,
    shortPenalty: weight("short_fish_penalty"),
    overLimit: written.over_limit,
    overPenalty: weight("over_limit_penalty"),
    latePenalty: weight("late_penalty_per_minute"),
    lateGrace: minutes("late_grace_minutes"),
    lateLimit: minutes("late_disqualify_after_minutes"),
    lateReducesBigFish: written.late_reduces_big_fish === "yes",
    bonus: weight("live_fish_bonus"),
    floor: written.negative_totals === "floor",
  };
}

/* The slip as typed: counts as numbers, weights as text, lateness in whole milliseconds. */
function read(book, slip) {
  const faults = [];
  const weight = (field) => {
    if (slip[field] === undefined || slip[field] === null || slip[field] === "") return null;
    try { return readWeight(slip[field], book.unit); } catch (error) { faults.push({ field, message: error.message }); return null; }
  };
  let largest = [];
  try { largest = (slip.largest_weights || []).map((item) => readWeight(item, book.unit)); } catch (error) {
    faults.push({ field: "largest_weights", message: error.message });
  }
  return {
    faults, largest,
    fish: slip.fish, alive: slip.alive, dead: slip.dead, short: slip.short || 0,
    gross: weight("gross"), tare: weight("tare"), big: weight("big_fish"), extra: weight("extra_penalty"),
    bigAlive: slip.big_fish_alive ?? null,
    extraReason: slip.extra_penalty_reason || "", ruling: slip.disqualified_reason || "",
    late: (BigInt(slip.late_ms || 0) * ONE) / 60000n, lateRest: (BigInt(slip.late_ms || 0) * ONE) % 60000n,
  };
}

function onScale(book, slip) {
  const shortAlive = Math.min(slip.short || 0, slip.alive);
  const legal = book.deadFish === "penalty" ? slip.fish - (slip.short || 0) : slip.alive - shortAlive;
  return book.overLimit === "penalty" ? Math.min(legal, book.fishLimit) : legal;
}

function removed(book, slip) {
  const over = book.overLimit === "remove_largest" ? Math.max(0, slip.fish - book.fishLimit) : 0;
  return [over, book.shortFish === "lose_largest" ? slip.short || 0 : 0];
}

const sum = (weights) => weights.reduce((total, weight) => total + weight, 0n);

function net(book, slip) { return slip.gross === null ? 0n : slip.gross - (slip.tare === null ? book.bagTare : slip.tare); }

function lostDay(book, slip) {
  if (slip.ruling) return "ruling";
  if (slip.fish > book.fishLimit && book.overLimit === "disqualify_day") return "over_limit";
  if (slip.short > 0 && book.shortFish === "lose_day") return "short_fish";
  if (book.lateLimit !== null && (slip.late > book.lateLimit || (slip.late === book.lateLimit && slip.lateRest > 0n))) return "late";
  return null;
}

function minutesBegun(book, slip) {
  const past = slip.late - book.lateGrace;
  if (past < 0n || (past === 0n && slip.lateRest === 0n)) return 0;
  const whole = past / ONE;
  return Number(whole) + (past % ONE > 0n || slip.lateRest > 0n ? 1 : 0);
}

function removedWeights(book, slip, weighed, scale) {
  const [over, short] = removed(book, slip);
  if (over + short >= scale) return over ? [weighed, 0n] : [0n, short ? weighed : 0n];
  return [sum(slip.largest.slice(0, over)), sum(slip.largest.slice(over, over + short))];
}

/* Every fault, not the first, but nothing that hangs on what is found wrong already. */
function check(book, slip) {
  const faults = [];
  const say = (field, message) => faults.push({ field, message });
  const right = (field) => !faults.some((fault) => fault.field === field);
  if (slip.fish !== slip.alive + slip.dead) say("fish", `${slip.fish} fish, but ${slip.alive} alive and ${slip.dead} dead`);
  if (slip.short > slip.fish) say("short", `${slip.short} short fish of ${slip.fish}`);
  const counted = !faults.length;
  const weighed = net(book, slip), scale = onScale(book, slip), lost = lostDay(book, slip) !== null;
  if (weighed < 0n) say("gross", "less than the bag");
  else if (counted && scale > 0 && slip.gross === null) say("gross", "no weight yet");
  else if (counted && scale === 0 && weighed > 0n) say("gross", "no fish goes on the scale under these rules");
  if (slip.largest.some((weight, at) => at && weight > slip.largest[at - 1])) say("largest_weights", "not largest first");
  else if (right("gross") && slip.gross !== null && sum(slip.largest) > weighed) say("largest_weights", "more than the fish on the scale");
  const taken = removed(book, slip).reduce((a, b) => a + b, 0);
  if (counted && !lost && slip.largest.length < taken && taken < scale) say("largest_weights", `the rules take the ${taken} largest`);
  const whole = counted && right("gross") && right("largest_weights");
  faults.push(...checkBigFish(book, slip, counted, whole && (lost ? weighed : weighed - sum(removedWeights(book, slip, weighed, scale)))));
  if (slip.extra !== null && !slip.extraReason.trim()) say("extra_penalty", "needs a reason");
  return faults;
}

/* left is the weight that counts, or false when it cannot be told. */
function checkBigFish(book, slip, counted, left) {
  const faults = [];
  if (counted && slip.big !== null && slip.fish === 0) return [{ field: "big_fish", message: "no fish was presented" }];
  const wrong = (slip.bigAlive === false && slip.dead === 0) || (slip.bigAlive === true && slip.alive === 0);
  if (counted && wrong) faults.push({ field: "big_fish_alive", message: "against the counts" });
  else if (counted && slip.big !== null && slip.bigAlive === null && slip.dead > 0) faults.push({ field: "big_fish_alive", message: "was it alive?" });
  if (slip.big !== null && left !== false && slip.big > left) faults.push({ field: "big_fish", message: "heavier than what counts" });
  return faults;
}

function score(book, typed) {
  const slip = read(book, typed);
  const faults = slip.faults.length ? slip.faults : check(book, slip);
  if (faults.length) return { faults };
  const weighed = net(book, slip), scale = onScale(book, slip), lost = lostDay(book, slip);
  const minutes = minutesBegun(book, slip);
  const answer = { net: plain(weighed), deductions: [], bonus: "0", total: "0", onScale: scale, weighed: 0, bigFish: null, lost, minutes };
  if (lost) return answer;
  const late = BigInt(minutes) * book.latePenalty;
  const over = Math.max(0, slip.fish - book.fishLimit);
  let [offLimit, offShort] = removedWeights(book, slip, weighed, scale);
  if (book.overLimit === "penalty") offLimit = BigInt(over) * book.overPenalty;
  if (book.shortFish === "penalty") offShort = BigInt(slip.short) * book.shortPenalty;
  const dead = book.deadFish === "not_weighed" ? 0 : slip.dead;
  const steps = book.deadPenalty;
  const forDead = sum(steps.slice(0, dead)) + BigInt(Math.max(0, dead - steps.length)) * steps[steps.length - 1];
  const lines = [
    ["over_limit", over, offLimit], ["short_fish", slip.short, offShort], ["dead_fish", dead, forDead],
    ["late", minutes, late], ["extra", slip.extra === null ? 0 : 1, slip.extra ?? 0n],
  ].filter(([, count]) => count);
  const bonus = book.bonus * BigInt(Math.min(slip.alive - Math.min(slip.short, slip.alive), book.fishLimit));
  let total = weighed - sum(lines.map(([, , amount]) => amount)) + bonus;
  if (book.floor && total < 0n) total = 0n;
  const alive = slip.bigAlive ?? slip.dead === 0;
  let big = slip.big;
  if (big !== null && !alive && !(book.deadFish === "penalty" && book.deadBigFish)) big = null;
  if (big !== null && book.lateReducesBigFish) big = big > late ? big - late : null;
  const taken = removed(book, slip).reduce((a, b) => a + b, 0);
  return Object.assign(answer, {
    deductions: lines.map(([reason, count, amount]) => ({ reason, count, amount: plain(amount) })),
    bonus: plain(bonus), total: plain(total), weighed: Math.max(0, scale - taken), bigFish: big === null ? null : plain(big),
  });
}

export { rules, score, onScale, removed, readWeight, plain, show };
