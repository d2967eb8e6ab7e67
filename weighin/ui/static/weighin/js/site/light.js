/* Paper, Sun, Night: the reader's choice, kept on this device. Loaded before the page is drawn. */
(function () {
  "use strict";
  const LIGHTS = ["paper", "sun", "night"];
  const page = document.documentElement;

  function kept() {
    try {
      const light = localStorage.getItem("light");
      return LIGHTS.includes(light) ? light : "paper";
    } catch (refused) {          // storage may be switched off: the choice then lasts for this page
      return page.dataset.light || "paper";
    }
  }

  function show(light) {
    page.dataset.light = light;
    for (const button of document.querySelectorAll(".light button")) {
      button.setAttribute("aria-pressed", String(button.value === light));
    }
  }

  show(kept());
  document.addEventListener("DOMContentLoaded", () => show(kept()));
  window.addEventListener("storage", (event) => { if (event.key === "light") show(kept()); });
  document.addEventListener("click", (event) => {
    const button = event.target.closest(".light button");
    if (!button) return;
    try { localStorage.setItem("light", button.value); } catch (refused) { /* lasts for this page */ }
    show(button.value);
  });
})();
