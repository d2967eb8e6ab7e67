/* All ways stand under More: it shuts again at Escape, and at a press beside it. */
const more = /** @type {HTMLDetailsElement | null} */ (document.querySelector(".all-ways"));

if (more) {
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !more.open) return;
    more.open = false;
    more.querySelector("summary")?.focus();
  });
  document.addEventListener("click", (event) => {
    if (more.open && event.target instanceof Node && !more.contains(event.target)) more.open = false;
  });
}
