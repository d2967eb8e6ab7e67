/* How the score comes out so far, with every deduction; and the lines for the largest fish when the rules take them. */
import { shown } from "../scoring/weights.js";
import { at, element } from "../site/elements.js";
import { gettext, ngettext } from "../site/text.js";
import { largestAsked, lines } from "../slip/words.js";

const MOST_LARGEST = 12;

/** @param {{faults: ScoringFault[]} | null} score @param {Typed} slip */
function waitsFor(score, slip) {
  if (!score || slip.alive === null) return gettext("The total waits for the counts.");
  if (score.faults.some((one) => one.code === "not_weighed")) return gettext("The total waits for the weight.");
  const { field } = score.faults[0];
  if (field === "largest_weights") return gettext("The total waits for the largest fish.");
  if (field === "big_fish_alive") return gettext("The total waits for whether the big fish was alive.");
  return gettext("The total waits for figures that can be right.");
}

/**
 * ``box`` gets the lines of ``score``; ``lateness`` in words where nothing is taken for it.
 * @param {HTMLElement} box @param {Scored} score @param {Typed} slip @param {{book: RuleBook, lateness: string}} rules
 */
function showIn(box, score, slip, { book, lateness }) {
  const unit = book.unit, list = element("dl", "", { class: "lines" });
  for (const [label, figures, nothing] of lines(score, slip, book, lateness)) {
    const row = element("div", "", nothing ? { class: "nothing" } : {});
    row.append(element("dt", label), element("dd", figures));
    list.append(row);
  }
  const total = element("p", "", { class: "total" }), figure = element("span", shown(score.total, unit), { class: "figure big" });
  figure.append(element("small", unit));
  total.append(element("span", gettext("Total")), figure);
  box.replaceChildren(list, total);
  if (slip.big_fish) {
    const counts = score.bigFish === null ? gettext("The big fish does not count.") : gettext("Big fish %(weight)s counts.", { weight: `${shown(score.bigFish, unit)} ${unit}` });
    box.append(element("p", counts, { class: "small" }));
  }
}

/** @param {Score | null} score @param {Typed} slip @param {{book: RuleBook, lateness: string}} rules */
export function show(score, slip, rules) {
  const unit = rules.book.unit;
  if (score && !("faults" in score)) {
    at("total-now").textContent = gettext("Total %(weight)s", { weight: `${shown(score.total, unit)} ${unit}` });
    showIn(at("sum"), score, slip, rules);
  } else {
    at("total-now").textContent = "";
    at("sum").replaceChildren(element("p", waitsFor(score, slip), { class: "says quiet" }));
  }
}

/** ``made()`` is called when a line is added. @param {RuleBook} book @param {Typed} slip @param {() => void} made */
export function askLargest(book, slip, made) {
  const asked = Math.min(largestAsked(book, slip), MOST_LARGEST);
  at("largest").hidden = !asked;
  at("largest-says").textContent = asked ? ngettext("The rules take the largest fish: weigh it alone, heaviest first", "The rules take the %(n)s largest fish: weigh each alone, heaviest first", asked) : "";
  const places = at("largest-lines");
  while (places.children.length > asked) places.lastElementChild?.remove();
  while (places.children.length < asked) {
    const number = places.children.length + 1;
    places.append(element("input", "", { name: `largest_${number}`, inputmode: "decimal", maxlength: 9, "data-fault": "largest_weights", "aria-label": gettext("Largest fish %(number)s", { number }) }));
    made();
  }
}
