/* How the score comes out so far, with every deduction; and the lines for the largest fish when the rules take them. */
import * as scoring from "../scoring/scoring.js";
import * as words from "../slip/words.js";

const element = words.element;
const WAITS = { largest_weights: "the largest fish", big_fish_alive: "whether the big fish was alive" };
const MOST_LARGEST = 12;
const at = (id) => document.getElementById(id);

function waitsFor(score, slip) {
  if (!score || slip.alive === null) return "the counts";
  if (score.faults.some((one) => one.message === "no weight yet")) return "the weight";
  return WAITS[score.faults[0].field] || "figures that can be right";
}

/* ``box`` gets the lines of ``score``; ``lateness`` in words where nothing is taken for it. */
function showIn(box, score, slip, { book, lateness }) {
  const unit = book.unit, list = element("dl", "", { class: "lines" });
  for (const [label, figures, nothing] of words.lines(score, slip, book, lateness)) {
    const row = element("div", "", nothing ? { class: "nothing" } : {});
    row.append(element("dt", label), element("dd", figures));
    list.append(row);
  }
  const total = element("p", "", { class: "total" }), figure = element("span", words.shown(score.total, unit), { class: "figure big" });
  figure.append(element("small", unit));
  total.append(element("span", "Total"), figure);
  box.replaceChildren(list, total);
  if (slip.big_fish) box.append(element("p", score.bigFish === null ? "The big fish does not count." : `Big fish ${words.shown(score.bigFish, unit)} ${unit} counts.`, { class: "small" }));
}

function show(score, slip, rules) {
  const known = score && !score.faults;
  at("total-now").textContent = known ? `Total ${words.shown(score.total, rules.book.unit)} ${rules.book.unit}` : "";
  if (known) showIn(at("sum"), score, slip, rules);
  else at("sum").replaceChildren(element("p", `The total waits for ${waitsFor(score, slip)}.`, { class: "says quiet" }));
}

/* ``made()`` is called when a line is added. */
function askLargest(book, slip, made) {
  const ready = slip.alive !== null && slip.dead !== null && slip.short !== null;
  const taken = ready ? scoring.removed(book, slip).reduce((a, b) => a + b, 0) : 0;
  const scale = ready ? scoring.onScale(book, slip) : 0;
  const asked = taken < scale ? Math.min(taken, MOST_LARGEST) : 0;
  at("largest").hidden = !asked;
  at("largest-says").textContent = asked ? `The rules take the ${asked === 1 ? "largest fish" : `${asked} largest fish`}: weigh ${asked === 1 ? "it" : "each"} alone, heaviest first` : "";
  const lines = at("largest-lines");
  while (lines.children.length > asked) lines.lastElementChild.remove();
  while (lines.children.length < asked) {
    const number = lines.children.length + 1;
    lines.append(element("input", "", { name: `largest_${number}`, inputmode: "decimal", maxlength: 9, "data-fault": "largest_weights", "aria-label": `Largest fish ${number}` }));
    made();
  }
}

export { show, showIn, askLargest };
