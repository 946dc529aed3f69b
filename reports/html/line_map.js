// The line map under pointer and keyboard: what each note is, and which parts of the map are shown.
"use strict";
(() => {
  const score = document.getElementById("score");
  const source = document.getElementById("data");
  if (!score || !source) return;
  const data = JSON.parse(source.textContent);
  const { words } = data;

  // The places of a note's values, as map_data.cpp writes them.
  const note = (index) => {
    const [onset, duration, midi, name, bar, place, degree, governor, role, figure, placement, sure, reason, connection] =
      data.notes[index];
    return {
      onset, duration, midi, name: words[name], bar: data.bars[bar], place: words[place], degree: words[degree],
      chord: governor < 0 ? "" : data.chords[governor][0], role: words[role], figure: words[figure],
      placement: words[placement], sure, reason: words[reason], connection: words[connection],
    };
  };
  const elementOf = (index) => document.getElementById(`n${index}`);
  const indexOf = (element) => Number(element.id.slice(1));

  const against = (n) => {
    if (!n.chord) return "no chord";
    return n.degree ? `${n.degree} of ${n.chord}` : `over ${n.chord}`;
  };
  const whatItIs = (n) => [n.role, n.figure === "none" ? "" : n.figure, n.placement].filter(Boolean).join(", ");
  // Nothing is said where nobody doubts.
  const doubt = (n, before = "", after = "") => (n.sure < 100 ? `${before}${n.sure} % sure${after}` : "");
  const where = (n) => `${n.name}, bar ${n.bar[0]}, ${n.place}`;
  const spoken = (n) =>
    [where(n), against(n).replaceAll("♭", "flat ").replaceAll("♯", "sharp "), whatItIs(n), doubt(n), n.reason,
      n.connection && `connection ${n.connection.replaceAll("♭", "flat ").replaceAll("♯", "sharp ")}`]
      .filter(Boolean).join(". ");

  // One note at a time is in the order of the Tab key; the arrow keys move on from it.
  let current = 0;
  data.notes.forEach((unused, index) => {
    const element = elementOf(index);
    element.setAttribute("role", "option");
    element.setAttribute("aria-label", spoken(note(index)));
    element.setAttribute("aria-selected", "false");
    element.setAttribute("tabindex", index === 0 ? "0" : "-1");
  });
  score.removeAttribute("tabindex");

  const tip = document.getElementById("tip");
  const line = (text, kind) => {
    const p = document.createElement(kind === "strong" ? "strong" : "p");
    p.textContent = text;
    if (kind === "soft") p.className = "soft";
    return p;
  };
  const hideTip = () => {
    tip.hidden = true;
  };
  const showTip = (index) => {
    const n = note(index);
    const parts = [line(where(n), "strong"), line(against(n)), line(`${whatItIs(n)}${doubt(n, " (", ")")}`)];
    if (n.reason) parts.push(line(n.reason));
    if (n.connection) parts.push(line(`Connection: ${n.connection}.`, "soft"));
    tip.replaceChildren(...parts);
    tip.hidden = false;
    const box = elementOf(index).querySelector("use").getBoundingClientRect();
    const room = document.documentElement.clientWidth;
    const left = Math.max(6, Math.min(box.left + box.width / 2 - tip.offsetWidth / 2, room - tip.offsetWidth - 6));
    const above = box.top - tip.offsetHeight - 8;
    tip.style.left = `${left + window.scrollX}px`;
    tip.style.top = `${(above > 4 ? above : box.bottom + 8) + window.scrollY}px`;
  };

  const select = (index) => {
    const before = elementOf(current);
    before.setAttribute("tabindex", "-1");
    before.setAttribute("aria-selected", "false");
    current = index;
    const element = elementOf(index);
    element.setAttribute("tabindex", "0");
    element.setAttribute("aria-selected", "true");
    showTip(index);
  };
  const go = (index) => elementOf(Math.max(0, Math.min(data.notes.length - 1, index))).focus({ preventScroll: false });

  // The note nearest to the same place `steps` choruses on; without choruses, of the line of the map above or below.
  const across = (steps) => {
    const barsOfSystem = 4;
    const bar = data.bars[0] ? data.bars[data.bars.length - 1][2] : 4;
    const wanted = data.notes[current][0] + steps * (data.chorus || bar * barsOfSystem);
    let best = current;
    let least = Infinity;
    data.notes.forEach((values, index) => {
      const distance = Math.abs(values[0] - wanted);
      const onward = (values[0] - data.notes[current][0]) * steps > 0;
      if (onward && distance < least) {
        least = distance;
        best = index;
      }
    });
    return best;
  };
  const keys = {
    ArrowRight: () => current + 1,
    ArrowLeft: () => current - 1,
    ArrowDown: () => across(1),
    ArrowUp: () => across(-1),
    Home: () => 0,
    End: () => data.notes.length - 1,
  };
  score.addEventListener("keydown", (event) => {
    if (event.key === "Escape") hideTip();
    if (!(event.key in keys) || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    go(keys[event.key]());
  });
  const noteAt = (event) => event.target.closest && event.target.closest("#score .note");
  score.addEventListener("focusin", (event) => {
    const element = noteAt(event);
    if (element) select(indexOf(element));
  });
  score.addEventListener("focusout", hideTip);
  score.addEventListener("pointerover", (event) => {
    const element = noteAt(event);
    if (element) showTip(indexOf(element));
  });
  score.addEventListener("pointerout", (event) => {
    if (!noteAt(event)) return;
    if (score.contains(document.activeElement) && document.activeElement.matches(".note")) showTip(current);
    else hideTip();
  });
  score.addEventListener("click", (event) => {
    const element = noteAt(event);
    if (element) element.focus({ preventScroll: true });
  });
  score.addEventListener("scroll", hideTip);
  for (const link of document.querySelectorAll("a.to-note"))
    link.addEventListener("click", (event) => {
      event.preventDefault();
      const element = document.querySelector(link.hash);
      element.scrollIntoView({ block: "center" });
      element.focus({ preventScroll: true });
    });

  // What is shown.
  const systems = [...score.querySelectorAll(".system")];
  const stacked = systems.slice();
  const played = systems.slice().sort((a, b) => a.dataset.played - b.dataset.played);
  const opening = systems.filter((system) => system.classList.contains("opens"));
  const show = (part, on) => {
    if (part !== "stacked") {
      score.classList.toggle(`hide-${part}`, !on);
      return;
    }
    score.append(...(on ? stacked : played));
    for (const system of opening) system.classList.toggle("opens", on);
  };
  for (const box of document.querySelectorAll("input[data-part]"))
    box.addEventListener("change", () => show(box.dataset.part, box.checked));
  for (const controls of document.querySelectorAll(".toggles")) controls.hidden = false;

  // The notes as a table, made when it is opened: with thousands of notes it would be most of the file.
  const all = document.getElementById("all-notes");
  all.hidden = false;
  all.addEventListener("toggle", () => {
    if (!all.open || all.querySelector("table")) return;
    const table = document.createElement("table");
    table.createCaption().textContent = "Every note, what it is and why. Sure: how probable just this role and figure is";
    const head = table.createTHead().insertRow();
    const columns = ["bar", "place", "note", "degree", "chord", "role", "figure", "placement", "sure", "reason"];
    for (const column of columns) {
      const cell = document.createElement("th");
      cell.scope = "col";
      cell.textContent = column;
      head.append(cell);
    }
    const body = table.createTBody();
    data.notes.forEach((unused, index) => {
      const n = note(index);
      const row = body.insertRow();
      const cells = [n.bar[0], n.place, n.name, n.degree, n.chord, n.role, n.figure, n.placement || "in place",
        n.sure < 100 ? `${n.sure} %` : "", n.reason];
      for (const text of cells) row.insertCell().textContent = text;
    });
    const frame = document.createElement("div");
    frame.className = "scroll";
    frame.tabIndex = 0;
    frame.setAttribute("role", "region");
    frame.setAttribute("aria-label", "All notes");
    frame.append(table);
    all.append(frame);
  });
})();
