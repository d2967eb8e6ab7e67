/* Paper, Sun, Night: the reader's choice, kept on this device. Loaded before the page is drawn. */
(function () {
  "use strict";
  const LIGHTS = ["paper", "sun", "night"];
  const page = document.documentElement;

  /** @returns {string} */
  function kept() {
    try {
      const light = localStorage.getItem("light");
      return light && LIGHTS.includes(light) ? light : "paper";
    } catch {          // storage may be switched off: the choice then lasts for this page
      return page.dataset.light || "paper";
    }
  }

  /** @param {string} light */
  function show(light) {
    page.dataset.light = light;
    for (const button of /** @type {NodeListOf<HTMLButtonElement>} */ (document.querySelectorAll(".light button"))) {
      button.setAttribute("aria-pressed", String(button.value === light));
    }
  }

  show(kept());
  document.addEventListener("DOMContentLoaded", () => show(kept()));
  window.addEventListener("storage", (event) => { if (event.key === "light") show(kept()); });
  document.addEventListener("click", (event) => {
    const button = /** @type {HTMLButtonElement | null} */ (event.target instanceof Element && event.target.closest(".light button"));
    if (!button) return;
    try { localStorage.setItem("light", button.value); } catch { /* lasts for this page */ }
    show(button.value);
  });
})();
