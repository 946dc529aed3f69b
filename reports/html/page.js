// Light and dark: follows the system until the reader chooses.
"use strict";
(() => {
  const button = document.getElementById("theme");
  if (!button) return;
  const root = document.documentElement;
  const system = matchMedia("(prefers-color-scheme: dark)");
  const isDark = () => (root.dataset.theme ? root.dataset.theme === "dark" : system.matches);
  const show = () => {
    button.setAttribute("aria-pressed", String(isDark()));
  };
  button.hidden = false;
  button.textContent = "Dark page";
  button.addEventListener("click", () => {
    root.dataset.theme = isDark() ? "light" : "dark";
    show();
  });
  system.addEventListener("change", show);
  show();
})();
