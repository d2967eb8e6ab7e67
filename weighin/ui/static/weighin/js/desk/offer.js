/* A short list under a line: arrow down marks, Enter chooses, Escape closes. Keys that come before the list are kept for it. */
import { element } from "../site/elements.js";

/**
 * @template T
 * @param {HTMLInputElement} line
 * @param {(one: T) => string[]} words what stands in a row: the name, and what is said of it
 * @param {(one: T) => void} choose
 */
export function offer(line, words, choose) {
  const list = element("ul", "", { role: "listbox", id: `${line.id}_offered`, class: "offered" });
  /** @type {T[]} */
  let rows = [];
  let marked = -1;
  let waits = false;
  let ahead = "";    // a key that was pressed before the list came

  list.hidden = true;
  line.removeAttribute("list");
  for (const [name, value] of Object.entries({ role: "combobox", "aria-autocomplete": "list", "aria-expanded": "false", "aria-controls": list.id })) line.setAttribute(name, value);
  line.closest(".answer")?.after(list);

  /** @param {number} place */
  function mark(place) {
    marked = place;
    [...list.children].forEach((one, at) => one.setAttribute("aria-selected", String(at === place)));
    if (place < 0) line.removeAttribute("aria-activedescendant");
    else {
      line.setAttribute("aria-activedescendant", list.children[place].id);
      list.children[place].scrollIntoView({ block: "nearest" });
    }
  }

  function close() {
    rows = [];
    waits = false;
    ahead = "";
    list.hidden = true;
    list.replaceChildren();
    line.setAttribute("aria-expanded", "false");
    mark(-1);
  }

  /** @param {number} place */
  function take(place) {
    const one = rows[place];
    close();
    choose(one);
  }

  /** @param {T} one @param {number} place */
  function row(one, place) {
    const [name, said] = words(one);
    const item = element("li", "", { role: "option", id: `${list.id}_${place}`, "aria-selected": "false" });
    item.append(element("b", name), " ");
    if (said) item.append(element("span", said, { class: "small quiet" }));
    item.addEventListener("mousedown", (event) => { event.preventDefault(); take(place); });
    return item;
  }

  line.addEventListener("keydown", (event) => {
    if (event.isComposing) return;
    const down = event.key === "ArrowDown", up = event.key === "ArrowUp", enter = event.key === "Enter";
    if (waits && (down || (enter && ahead))) {
      event.preventDefault();
      ahead = event.key;
    } else if ((down || up) && rows.length) {
      event.preventDefault();
      mark((marked + (down ? 1 : rows.length) + (marked < 0 && up ? 1 : 0)) % rows.length);
    } else if (enter && marked >= 0) {
      event.preventDefault();
      take(marked);
    } else if (event.key === "Escape" && rows.length) {
      event.preventDefault();
      close();
    }
  });
  line.addEventListener("blur", close);

  return {
    /** A list is on its way. */
    wait() { waits = document.activeElement === line; },
    /** @param {T[]} found */
    show(found) {
      const early = ahead;
      close();
      if (!found.length || document.activeElement !== line) return;
      rows = found;
      list.replaceChildren(...found.map(row));
      list.hidden = false;
      line.setAttribute("aria-expanded", "true");
      if (early) mark(0);
      if (early === "Enter") take(0);
    },
  };
}
