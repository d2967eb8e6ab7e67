/* What must be seen: the line with the focus, its question and what is wrong with it, between the page's top and Keep. */
const ROOM = 8;
const WHOLE = ".big-fish, .correcting .fields, .counts, .whose";    // several lines that are seen as one

/** Brings ``one`` and what belongs to it into view. @param {Element} one */
export function bringIntoView(one) {
  const bar = /** @type {HTMLElement | null | undefined} */ (one.closest("form")?.querySelector(".keep-bar"));
  if (!bar || bar.contains(one)) return;
  const box = (one.closest(WHOLE) || one.closest(".field, .stop") || one).getBoundingClientRect(), line = one.getBoundingClientRect();
  const stuck = getComputedStyle(bar).position === "sticky", bottom = stuck ? window.innerHeight - bar.offsetHeight : window.innerHeight;
  const below = Math.max(Math.min(box.bottom + ROOM - bottom, box.top - ROOM), line.bottom + ROOM - bottom);
  if (below > 0) window.scrollBy({ top: below, behavior: "instant" });
  else if (box.top < ROOM) window.scrollBy({ top: box.top - ROOM, behavior: "instant" });
}

/* A key that bounces presses twice: ``mark()`` what was done, ``again()`` tells whether it is asked for once more too
   soon; a button that asks something is held for so long. */
const BOUNCE = 350;
export function bounceGuard() {
  let at = -Infinity;
  return {
    /** @param {HTMLElement} [button] */
    mark(button) {
      at = performance.now();
      if (!button) return;
      button.setAttribute("aria-disabled", "true");
      setTimeout(() => button.removeAttribute("aria-disabled"), BOUNCE + 20);
    },
    again: () => performance.now() - at < BOUNCE,
  };
}
