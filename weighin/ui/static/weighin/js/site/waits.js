/* A form whose answer may take some seconds says so once it is sent: <p data-wait hidden>…</p> in the form. */

/** @param {ParentNode} part @param {boolean} waiting */
const show = (part, waiting) => part.querySelectorAll("[data-wait]").forEach((one) => one.toggleAttribute("hidden", !waiting));

document.addEventListener("submit", (event) => { if (event.target instanceof Element) show(event.target, true); });
// Gone back to, the page may be the one that was left
window.addEventListener("pageshow", () => show(document, false));
