/* On a phone the ways stand in one row at the foot: the current one is brought into view, and a sign says where more are. */
const EDGE = 4;

for (const ways of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".ways"))) {
  const current = /** @type {HTMLElement | null} */ (ways.querySelector("[aria-current]"));
  const mark = () => {
    const more = [];
    if (ways.scrollLeft > EDGE) more.push("before");
    if (ways.scrollLeft + ways.clientWidth < ways.scrollWidth - EDGE) more.push("after");
    ways.dataset.more = more.join(" ");
  };
  const show = () => {
    if (current && ways.scrollWidth > ways.clientWidth) {
      ways.scrollLeft = current.offsetLeft - (ways.clientWidth - current.offsetWidth) / 2;
    }
    mark();
  };
  ways.addEventListener("scroll", mark, { passive: true });
  window.addEventListener("resize", show);
  show();
}
