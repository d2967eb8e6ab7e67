/* The big screen changes by whole screens and never scrolls; a part that came anew shows the same one. */
const SECONDS = 12;
let shown = 0;

function show() {
  const wholes = document.querySelectorAll("[data-whole]");
  wholes.forEach((whole, place) => whole.toggleAttribute("hidden", place !== shown % wholes.length));
}

document.addEventListener("htmx:afterSwap", show);
setInterval(() => { shown += 1; show(); }, SECONDS * 1000);
