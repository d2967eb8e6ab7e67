/* What is unlikely about a slip: said before it is kept, never in the way of keeping it.

   weighinDoubts(slip, {book, papers, others, entry}) gives [{field, words, label}]; label says what is kept all the same. */
import * as scoring from "../scoring/scoring.js";

const GIANT = 2;            // the heaviest that is believable, divided by this, is a giant (1.75 lb in crappie): common practice, no source
const TIMES_USUAL = 2.5;    // where the event's own slips say what is usual, this often more or less is unlikely
const TENFOLD = 6;          // from here the point may stand in the wrong place
const ENOUGH = 5;

const figure = (text, unit) => Number(scoring.plain(scoring.readWeight(text, unit)));

/* Weight per fish, bag taken off; null when it cannot be told. */
function perFish(slip, book) {
  try {
    const bag = slip.tare ? figure(slip.tare, book.unit) : Number(scoring.plain(book.bagTare));
    const number = scoring.onScale(book, slip);
    return slip.gross && number > 0 ? (figure(slip.gross, book.unit) - bag) / number : null;
  } catch (fault) { return null; }
}

/* The middle weight per fish of this event's slips; null while they are few. */
function usual(book, papers) {
  const found = papers.slips.filter((slip) => !slip.void && slip.fish).map((slip) => perFish(slip, book));
  const sorted = found.filter((one) => one > 0).sort((a, b) => a - b);
  return sorted.length < ENOUGH ? null : sorted[Math.floor(sorted.length / 2)];
}

export function doubtsAbout(slip, { book, papers, others, entry }) {
  const doubts = [], unit = book.unit, kind = papers.believable;
  const giant = kind ? Number(kind.heaviest) / GIANT : Infinity, lightest = kind ? Number(kind.lightest) : 0;
  const written = (size) => `${size.toFixed(2)} ${unit === "kg" ? "kg" : "lb"}`;
  const say = (field, words, label) => doubts.push({ field, words, label });
  if (!entry) say("boat", `Boat ${slip.boat} is not on this tablet's list of teams: look at the number again. Until it is entered, the site will not take the slip.`, `boat ${slip.boat}`);
  else if (entry.status && !["entered", "active"].includes(entry.status)) say("boat", `Boat ${slip.boat} is written down as ${entry.status.replace(/_/g, " ")}.`, `boat ${slip.boat}`);
  if (others.length) {
    const one = others[0], named = one.slip ? `slip ${one.slip}` : "a slip on this tablet";
    say("boat", `Boat ${slip.boat} has ${named} for day ${slip.day} already${one.gross ? `, ${one.gross}` : ""}. With two, neither counts until the director settles it.`, `a second slip for boat ${slip.boat}`);
  }
  if (slip.fish > book.fishLimit) say("alive", `${slip.fish} fish, and the limit is ${book.fishLimit}: count again.`, `${slip.fish} fish`);
  const each = perFish(slip, book), middle = usual(book, papers);
  const most = middle ? middle * TIMES_USUAL : giant, least = middle ? Math.max(middle / TIMES_USUAL, lightest) : lightest;
  const compared = middle ? `boats here bring ${written(middle)} a fish` : kind ? `a fish of ${written(giant)} is a giant among ${kind.words}` : "";
  if (each !== null && (each > most || each < least)) {
    const tenfold = middle && (each > middle * TENFOLD || each < middle / TENFOLD) ? " Is the point in its place?" : "";
    const why = each < lightest ? `${kind.words} are hardly lighter than ${written(lightest)} each` : compared;
    say("gross", `${slip.gross} is ${written(each)} a fish; ${why}.${tenfold} Read the scale again.`, slip.gross);
  }
  if (slip.big_fish) {
    const big = figure(slip.big_fish, unit), tooBig = Number.isFinite(giant) ? Math.max((middle || 0) * TIMES_USUAL, giant) : middle ? middle * TIMES_USUAL : Infinity;
    if (big > tooBig) say("big_fish", `${slip.big_fish} is heavier than the fish one expects: ${compared}.`, slip.big_fish);
    else if (each !== null && big < each && big > 0) say("big_fish", `${slip.big_fish} is lighter than this boat’s fish on average (${written(each)}): weigh the largest.`, slip.big_fish);
  }
  return doubts;
}
