// A text with faults shown in their places: behind the writing lies the same text with a mark where the fault is.
"use strict";
desk.editor = (area, said, onInput, { wholeWords = false } = {}) => {
  const under = area.parentElement.querySelector(".under");
  let fault = null;
  const startOf = (line) => area.value.split("\n").slice(0, line - 1).reduce((sum, text) => sum + text.length + 1, 0);
  // Columns count whole characters; a string counts some as two.
  const placeOf = ({ line, column }) => {
    const text = area.value.split("\n")[line - 1] ?? "";
    const found = [...text].slice(0, column - 1).join("").length;
    const begin = wholeWords ? found - /[^\s|]*$/.exec(text.slice(0, found))[0].length : found;
    const rest = /^[^\s|]+/.exec(text.slice(begin));
    return { begin: startOf(line) + begin, end: startOf(line) + begin + (rest ? rest[0].length : 1) };
  };
  const paint = () => {
    const text = area.value;
    if (!fault) return under.replaceChildren();
    const { begin, end } = placeOf(fault);
    const marked = text.slice(begin, end).replace(/\n/g, " ") || " ";
    under.replaceChildren(text.slice(0, begin), desk.make("mark", { textContent: marked }), text.slice(begin + marked.length), "\n");
  };
  const follow = () => {
    under.scrollTop = area.scrollTop;
    under.scrollLeft = area.scrollLeft;
  };
  const editor = {
    /// Shows messages below, and the first of them that has a place in the text.
    show(messages, settings = {}) {
      fault = messages.find(({ kind, line }) => kind === "error" && line) ?? null;
      const go = (message) => {
        const { begin, end } = placeOf(message);
        area.focus();
        area.setSelectionRange(begin, end);
      };
      desk.showMessages(said, messages, { ...settings, go });
      area.setAttribute("aria-invalid", String(messages.some(({ kind }) => kind === "error")));
      paint();
      follow();
    },
    set(text) {
      if (area.value !== text) area.value = text;
      fault = null;
      paint();
    },
    /// Puts in another text as if it were typed, so that it can be taken back.
    replace(text) {
      area.focus();
      area.select();
      if (!document.execCommand("insertText", false, text)) area.setRangeText(text, 0, area.value.length, "end");
      area.dispatchEvent(new Event("input"));
    },
    /// What stands at the caret, between blanks and bar lines.
    atCaret() {
      const at = area.selectionStart;
      const before = /[^\s|]*$/.exec(area.value.slice(0, at))[0];
      const after = /^[^\s|]*/.exec(area.value.slice(at))[0];
      return before + after;
    },
    lineAtCaret: () => area.value.slice(area.value.lastIndexOf("\n", area.selectionStart - 1) + 1).split("\n")[0],
    area,
  };
  area.addEventListener("input", () => {
    fault = null; // until it has been read anew
    paint();
    onInput(area.value);
  });
  area.addEventListener("scroll", follow);
  return editor;
};
