// A page that the tool made, in a frame of its own, and what can be done with it.
"use strict";
/// `title` is a page's name for who hears it; `saves` are pairs of a text and what is done.
desk.shown = (host, title, saves) => {
  const frame = desk.make("iframe", { title });
  const words = desk.make("div", { className: "words" });
  const fill = desk.button("Fill the window", () => filling(!host.classList.contains("filling")));
  const print = desk.button("Print", () => frame.contentWindow.print());
  const later = desk.make("p", { className: "soft", hidden: true, textContent: "What follows is from before the last change." });
  host.replaceChildren(words, desk.make("div", { className: "row", attributes: { role: "group", "aria-label": "Save and print" } },
    ...saves.map(([text, act]) => desk.button(text, act)), print, fill), later, frame);
  let shownHtml = "";
  let scrolled = 0;

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
    if (toggle && (toggle.getAttribute("aria-pressed") === "true") !== desk.isDark()) toggle.click();
  };
  desk.on("theme", matchTheme);
  frame.addEventListener("load", () => {
    if (!frame.contentDocument) return;
    matchTheme();
    frame.contentWindow.scrollTo({ top: scrolled, behavior: "instant" });
    frame.contentDocument.addEventListener("keydown", escape);
  });
  return {
    show(html, sentences) {
      words.replaceChildren(...sentences.map((text) => desk.make("p", { textContent: text })));
      host.hidden = false;
      later.hidden = true;
      if (html === shownHtml) return;
      scrolled = frame.contentWindow?.scrollY ?? 0;
      shownHtml = html;
      frame.srcdoc = html;
    },
    outdated() { later.hidden = host.hidden; },
    clear() {
      host.hidden = true;
      shownHtml = "";
    },
    html: () => shownHtml,
  };
};

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
