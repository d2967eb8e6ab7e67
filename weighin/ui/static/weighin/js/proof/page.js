/* The page 'Check this result': the proof that it holds, or one that is chosen, checked in the reader's browser.
   Outside a browser the same is at hand as ``weighinProof``, and as ``node check.js FILE``. */
import { element } from "../site/elements.js";
import { gettext } from "../site/text.js";
import { NoProof, canonical, check, digestOf, recompute } from "./check.js";
import { asked } from "./site.js";
import { digestSaid, findingOf, line, workedOut } from "./words.js";

/** @param {string} head @param {string} sentence @param {string[]} lines @param {boolean} right */
function part(head, sentence, lines, right) {
  const made = element("section", "", { class: right ? "check-part" : "check-part is-wrong" });
  made.append(element("h2", head), element("p", sentence));
  if (lines.length) {
    const list = element("ul");
    list.append(...lines.map((one) => element("li", one)));
    made.append(list);
  }
  return made;
}

/** @param {HTMLElement} place */
function pageOf(place) {
  let latest = 0;

  /** The third part, where the site is there to be asked. @param {string} text @param {ProofVerdict} verdict @param {HTMLElement} section @param {number} turn */
  async function ask(text, verdict, section, turn) {
    const [sentence, lines] = await asked(text, verdict, { proof: place.dataset.proof || "", check: place.dataset.check || "" });
    if (turn === latest) section.replaceWith(part(gettext("What this site keeps"), sentence, lines, !lines.length));
  }

  /** @param {string} text */
  function show(text) {
    latest += 1;
    try {
      const verdict = check(text), lines = verdict.differs.map(line);
      const finding = element("p", findingOf(verdict), { class: lines.length || !verdict.digest.holds ? "check-finding is-wrong" : "check-finding" });
      const there = place.dataset.check && /^https?:$/.test(window.location.protocol);
      const site = part(gettext("What this site keeps"), there ? gettext("Asking the site …") : gettext("Not asked: this page was saved, and works without the site."), [], true);
      place.replaceChildren(element("p", verdict.name, { class: "quiet" }), finding, part(gettext("The file"), digestSaid(verdict), [], verdict.digest.holds), part(gettext("Worked out again"), workedOut(verdict), lines, !lines.length), site);
      if (there) ask(text, verdict, site, latest);
      return true;
    } catch (error) {
      if (!(error instanceof NoProof)) throw error;
      place.replaceChildren(element("p", error.message, { class: "check-finding is-wrong" }));
      return false;
    }
  }

  const block = document.getElementById("proof");
  if (block && block.textContent) show(block.textContent);
  const file = /** @type {HTMLInputElement | null} */ (document.getElementById("file"));
  file?.addEventListener("change", async () => {
    const chosen = file.files && file.files[0];
    if (!chosen) return;
    const text = await chosen.text();
    // Another JSON than a proof is the site’s to check, where there is one
    if (text.includes("weighin-proof-") || !/^\s*\{/.test(text) || !place.dataset.check) show(text);
    else place.replaceChildren(element("p", gettext("This is an older file, without the slips. The site can hold it against what it keeps: press the button.")));
  });
}

const USAGE = "node check.js FILE [--json]";

/** The check as a program, see USAGE. @param {any} node @param {any} files */
export function run(node, files) {
  const [file, option] = node.argv.slice(2);
  try {
    if (!file) throw new NoProof(USAGE);
    const verdict = check(files.readFileSync(file, "utf8"));
    const said = [findingOf(verdict), digestSaid(verdict), workedOut(verdict), ...verdict.differs.map(line)];
    node.stdout.write(option === "--json" ? `${JSON.stringify(verdict)}\n` : `${said.join("\n")}\n`);
    node.exitCode = verdict.digest.holds && !verdict.differs.length && verdict.result ? 0 : 1;
  } catch (error) {
    node.stderr.write(`${error instanceof Error ? error.message : error}\n`);
    node.exitCode = 1;
  }
}

export { canonical, check, digestOf, recompute };

const place = globalThis.document?.getElementById("checked");
if (place) pageOf(place);
