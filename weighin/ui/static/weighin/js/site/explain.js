/* Opens the lines of a sum under its row; lines that are not in the page yet are asked for once.
   Without this script the link asks the server for the page with them open.
   <a class="why" href="?why=27#boat-27" data-why="27" data-lines="/…/why/27/" aria-expanded="false">why</a> … <tr class="explain" data-of="27" hidden> */
import { gettext } from "./text.js";

/** @type {Set<string>} */
const open = new Set();
/** @type {Set<string>} */
const asked = new Set();
/** @param {string} key */
const lines = (key) => document.querySelectorAll(`[data-of="${CSS.escape(key)}"]`);

/** @param {string} key */
function show(key) {
  const wanted = open.has(key);
  for (const line of lines(key)) line.toggleAttribute("hidden", !wanted);
  for (const link of document.querySelectorAll(`[data-why="${CSS.escape(key)}"]`)) {
    link.setAttribute("aria-expanded", String(wanted));
    link.textContent = wanted ? gettext("close") : gettext("why");
  }
}

/** @param {HTMLAnchorElement} link @param {string} address @param {string} key */
async function ask(link, address, key) {
  if (asked.has(key)) return;
  asked.add(key);
  try {
    const answer = await fetch(address, { credentials: "same-origin" });
    if (!answer.ok) throw new Error(String(answer.status));
    link.closest("tr")?.insertAdjacentHTML("afterend", await answer.text());
    open.add(key);
    show(key);
  } catch {
    window.location.assign(link.href);
  } finally {
    asked.delete(key);
  }
}

document.addEventListener("click", (event) => {
  const link = /** @type {HTMLAnchorElement | null} */ (event.target instanceof Element && event.target.closest("[data-why]"));
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const { why: key = "", lines: address } = link.dataset;
  if (lines(key).length) {
    event.preventDefault();
    if (open.has(key)) open.delete(key); else open.add(key);
    show(key);
  } else if (address) {
    event.preventDefault();
    ask(link, address, key);
  }
});

document.addEventListener("htmx:afterSettle", () => open.forEach(show));
document.addEventListener("DOMContentLoaded", () => {
  for (const link of document.querySelectorAll('[data-why][aria-expanded="true"]')) open.add(link.getAttribute("data-why") || "");
});
