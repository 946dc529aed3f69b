// A page that the tool made, in a frame of its own, and what can be done with it.
"use strict";
/// `title` is a page's name for who hears it; `saves` are pairs of a text and what is done; a new page is shown from the
/// element with the id `from` on.
desk.shown = (host, title, saves, from = "") => {
  const frame = desk.make("iframe", { title });
  const fill = desk.button("Fill the window", () => filling(!host.classList.contains("filling")));
  const print = desk.button("Print", () => frame.contentWindow.print());
  const later = desk.make("p", { className: "soft", hidden: true, textContent: "What follows is from before the last change." });
  host.replaceChildren(desk.make("div", { className: "row", attributes: { role: "group", "aria-label": "Save and print" } },
    ...saves.map(([text, act]) => desk.button(text, act)), print, fill), later, frame);
  let shownHtml = "";
  let scrolled = null; // of the page before

  const filling = (on) => {
    host.classList.toggle("filling", on);
    document.body.classList.toggle("covered", on);
    fill.textContent = on ? "Back to the desk" : "Fill the window";
    fill.focus();
  };
  const escape = (event) => { if (event.key === "Escape" && host.classList.contains("filling")) filling(false); };
  host.addEventListener("keydown", escape);
  const matchTheme = () => {
    const toggle = frame.contentDocument?.getElementById("theme");
    if (!toggle) return;
    if ((toggle.getAttribute("aria-pressed") === "true") !== desk.isDark()) toggle.click();
    toggle.hidden = true; // there is one for both
  };
  desk.on("theme", matchTheme);
  frame.addEventListener("load", () => {
    if (!frame.contentDocument) return;
    matchTheme();
    const start = scrolled === null ? frame.contentDocument.getElementById(from) : null;
    if (start) start.scrollIntoView({ behavior: "instant" });
    else frame.contentWindow.scrollTo({ top: scrolled ?? 0, behavior: "instant" });
    frame.contentDocument.addEventListener("keydown", escape);
  });
  return {
    show(html) {
      host.hidden = false;
      later.hidden = true;
      if (html === shownHtml) return;
      scrolled = shownHtml ? frame.contentWindow.scrollY : null;
      shownHtml = html;
      frame.srcdoc = html;
    },
    outdated() { later.hidden = host.hidden; },
    clear() {
      host.hidden = true;
      shownHtml = "";
    },
  };
};

desk.showWords = (host, sentences) => host.replaceChildren(...sentences.map((text) => desk.make("p", { textContent: text })));

/// The sentences of a printed summary that begin at `from`: lines up to a blank one or another indentation, put together.
desk.paragraph = (text, from) => {
  const lines = text.split("\n");
  const first = typeof from === "number" ? from : lines.findIndex((line) => line.startsWith(from)) + 1;
  const found = [];
  for (const line of lines.slice(first)) {
    if (!/^ {2}\S/.test(line) || /[█▓▒░]| {4}/.test(line.trim())) break;
    found.push(line.trim());
  }
  return found.join(" ");
};
