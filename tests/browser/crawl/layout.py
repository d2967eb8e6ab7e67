"""What of a page does not fit: measured in the page itself, in the width that the window has."""

from typing import Any

MEASURE = """() => {
  const said = [], width = document.documentElement.clientWidth;
  const name = (one) => one.tagName.toLowerCase() + [...one.classList].map((word) => "." + word).join("");
  const where = (one) => `${one.parentElement ? name(one.parentElement) + " > " : ""}${name(one)}`;
  const words = (text) => text.replace(/\\s+/g, " ").trim().slice(0, 60);
  if (document.documentElement.scrollWidth > innerWidth + 1)
    said.push(["sideways", `${document.documentElement.scrollWidth} in ${innerWidth}`]);
  const styles = new Map();
  const style = (one) => styles.get(one) ?? (styles.set(one, getComputedStyle(one)), styles.get(one));
  const above = function* (one) { for (let up = one; up; up = up.parentElement) yield up; };
  const floats = (one) => [...above(one)].some((up) => ["fixed", "sticky"].includes(style(up).position));
  const unseen = (one) => !one.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true })
    || [...above(one)].some((up) => style(up).clipPath !== "none" || (up.clientWidth <= 1 && style(up).overflow === "hidden"));
  const scrolls = (one) => [...above(one)].some((up) => up !== document.documentElement && up !== document.body
    && ["auto", "scroll"].includes(style(up).overflowX) && up.scrollWidth > up.clientWidth + 1);
  for (const one of document.querySelectorAll("body *")) {
    if (one.closest("svg") || one.scrollWidth <= one.clientWidth + 1 || !one.clientWidth || unseen(one)) continue;
    const { overflowX } = style(one);
    // What is typed scrolls in its line
    if (["hidden", "clip"].includes(overflowX) && !one.matches("input, textarea")) said.push(["cut", `${where(one)}: ${one.scrollWidth} in ${one.clientWidth}: ${words(one.textContent)}`]);
    if (["auto", "scroll"].includes(overflowX) && !one.matches("nav, pre, textarea, input"))
      said.push(["inner scroll", `${where(one)}: ${one.scrollWidth} in ${one.clientWidth}`]);
  }
  // Lines that a box hides cover nothing
  const shown = (box, one) => { let { top, bottom } = box;
    for (const up of above(one)) if (["hidden", "clip"].includes(style(up).overflowY)) {
      const frame = up.getBoundingClientRect(); top = Math.max(top, frame.top); bottom = Math.min(bottom, frame.bottom); }
    return { left: box.left, right: box.right, top, bottom, height: bottom - top }; };
  const lines = [], range = document.createRange(), texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const text = texts.currentNode, one = text.parentElement;
    if (!text.data.trim() || one.closest("script, style, textarea, option, noscript") || unseen(one)) continue;
    range.selectNodeContents(text);
    const still = !floats(one), inner = scrolls(one);
    for (const box of range.getClientRects()) {
      if (box.width < 1 || box.height < 1) continue;
      if (still && !inner && (box.right > width + 1 || box.left < -1)) said.push(["beyond", `${where(one)}: ${words(text.data)}`]);
      const seen = shown(box, one);
      if (still && seen.height > 0.4 * box.height) lines.push({ box: seen, one, text: text.data });
    }
  }
  lines.sort((a, b) => a.box.top - b.box.top);
  lines.forEach((a, n) => {
    for (let next = n + 1; next < lines.length && lines[next].box.top < a.box.bottom; next += 1) {
      const b = lines[next];
      const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
      const down = Math.min(a.box.bottom, b.box.bottom) - b.box.top;
      if (across > 2 && down > 0.4 * Math.min(a.box.height, b.box.height))
        said.push(["overlap", `${where(a.one)}: ${words(a.text)} | ${where(b.one)}: ${words(b.text)}`]);
    }
  });
  return { said, height: document.documentElement.scrollHeight };
}"""


def misfits(page: Any, tallest: int = 0) -> list[tuple[str, str]]:
    """Kind and words of what is cut, overlaps, lies beyond the window or makes it scroll sideways, and a page taller than ``tallest``."""
    found = page.evaluate(MEASURE)
    said = [(kind, what) for kind, what in found["said"]]
    if tallest and found["height"] > tallest:
        said.append(("tall", f"{found['height']} px, {tallest} at most"))
    return list(dict.fromkeys(said))
