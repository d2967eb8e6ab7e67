/* What is unlikely about a slip: said before it is kept, never in the way of keeping it. */
import { onScale } from "../scoring/score.js";
import { plain, readWeight } from "../scoring/weights.js";
import { gettext } from "../site/text.js";
import { fishOf, slipNamed } from "./words.js";

const GIANT = 2;            // the heaviest that is believable, divided by this, is a giant (1.75 lb in crappie): common practice, no source
const TIMES_USUAL = 2.5;    // where the event's own slips say what is usual, this often more or less is unlikely
const TENFOLD = 6;          // from here the point may stand in the wrong place
const ENOUGH = 5;

/** @param {string} text @param {Unit} unit */
const figure = (text, unit) => Number(plain(readWeight(text, unit)));

/** Weight per fish, bag taken off; null when it cannot be told. @param {Slip | Typed} slip @param {RuleBook} book */
function perFish(slip, book) {
  try {
    const bag = slip.tare ? figure(slip.tare, book.unit) : Number(plain(book.weight("bag_tare")));
    const number = onScale(book, /** @type {Counts} */ (slip));
    return slip.gross && number > 0 ? (figure(slip.gross, book.unit) - bag) / number : null;
  } catch { return null; }
}

/** The middle weight per fish of this event's slips; null while they are few. @param {RuleBook} book @param {EventDocument} eventDocument */
function usual(book, eventDocument) {
  const found = eventDocument.slips.filter((slip) => !slip.void && slip.fish).map((slip) => perFish(slip, book) || 0);
  const sorted = found.filter((one) => one > 0).sort((a, b) => a - b);
  return sorted.length < ENOUGH ? null : sorted[Math.floor(sorted.length / 2)];
}

/** @param {Typed} slip @param {{others: Slip[], entry: Entry | null | undefined, add: (field: string, words: string, label: string) => void}} more */
function doubtBoat(slip, { others, entry, add }) {
  const { boat, day } = slip, label = gettext("boat %(boat)s", { boat });
  if (!entry) add("boat", gettext("Boat %(boat)s is not on this tablet’s list of teams: check the number. Until it is entered, the site will not take the slip.", { boat }), label);
  else if (entry.status && !["entered", "active"].includes(entry.status)) add("boat", gettext("Boat %(boat)s is marked %(status)s.", { boat, status: STATUSES[entry.status] || entry.status }), label);
  if (!others.length) return;
  const [one] = others, named = slipNamed(one.slip, gettext("a slip on this tablet"));
  const weight = one.gross ? `, ${one.gross}` : "";
  add("boat", gettext("Boat %(boat)s has %(slip)s for day %(day)s already%(weight)s. With two, neither counts until the director settles it.", { boat, slip: named, day, weight }), gettext("a second slip for boat %(boat)s", { boat }));
}

/** @type {Record<string, string>} */
const STATUSES = { absent: gettext("absent"), disqualified: gettext("disqualified"), withdrawn: gettext("withdrawn") };

/**
 * [{field, words, label}]; label says what is kept all the same.
 * @param {Typed} slip
 * @param {{book: RuleBook, eventDocument: EventDocument, others: Slip[], entry: Entry | null | undefined}} about
 */
export function doubtsAbout(slip, { book, eventDocument, others, entry }) {
  /** @type {Doubt[]} */
  const doubts = [];
  /** @param {string} field @param {string} words @param {string} label */
  const add = (field, words, label) => { doubts.push({ field, words, label }); };
  const unit = book.unit, kind = eventDocument.believable, limit = book.whole("fish_limit");
  const giant = kind ? Number(kind.heaviest) / GIANT : Infinity, lightest = kind ? Number(kind.lightest) : 0;
  /** @param {number} size */
  const written = (size) => `${size.toFixed(2)} ${unit === "kg" ? "kg" : "lb"}`;
  doubtBoat(slip, { others, entry, add });
  if (slip.fish > limit) add("alive", gettext("%(fish)s, and the limit is %(limit)s: count again.", { fish: fishOf(slip.fish), limit }), fishOf(slip.fish));
  const each = perFish(slip, book), middle = usual(book, eventDocument);
  const most = middle ? middle * TIMES_USUAL : giant, least = middle ? Math.max(middle / TIMES_USUAL, lightest) : lightest;
  const compared = middle ? gettext("boats here bring %(weight)s a fish", { weight: written(middle) })
    : kind ? gettext("a fish of %(weight)s is a giant among %(kind)s", { weight: written(giant), kind: kind.words }) : "";
  if (slip.gross && each !== null && (each > most || each < least)) {
    const why = kind && each < lightest ? gettext("%(kind)s are hardly lighter than %(weight)s each", { kind: kind.words, weight: written(lightest) }) : compared;
    const values = { weight: slip.gross, each: written(each), why };
    add("gross", middle && (each > middle * TENFOLD || each < middle / TENFOLD)
      ? gettext("%(weight)s is %(each)s a fish; %(why)s. Is the point in its place? Read the scale again.", values)
      : gettext("%(weight)s is %(each)s a fish; %(why)s. Read the scale again.", values), slip.gross);
  }
  if (slip.big_fish) {
    const big = figure(slip.big_fish, unit), tooBig = Number.isFinite(giant) ? Math.max((middle || 0) * TIMES_USUAL, giant) : middle ? middle * TIMES_USUAL : Infinity;
    if (big > tooBig) add("big_fish", gettext("%(weight)s is heavier than the fish one expects: %(compared)s.", { weight: slip.big_fish, compared }), slip.big_fish);
    else if (each !== null && big < each && big > 0) add("big_fish", gettext("%(weight)s is lighter than this boat’s fish on average (%(each)s): weigh the largest.", { weight: slip.big_fish, each: written(each) }), slip.big_fish);
  }
  return doubts;
}
