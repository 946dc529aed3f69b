// The line map under pointer and keyboard: what each note is, and which parts of the map are shown.
"use strict";
insideline.line = (() => {
  const { map, address, make } = insideline;
  if (!map) return null;
  const score = document.getElementById("score");
  const { data } = map;
  const { words } = data;

  // Whose names are shown: [name, index of the names or -1, octaves], and those names as map_data.cpp writes them.
  let reader = data.readers[0];
  const moved = () => data.names[reader[1]];
  const chordName = (index) => (moved() ? moved()[1][index] : data.chords[index][0]);
  const noteName = (index) => {
    const name = words[moved() ? moved()[2][index] : data.notes[index][3]];
    return name.replace(/-?\d+$/, (octave) => Number(octave) + reader[2]);
  };
  let otherNames = new Map();
  const inNames = (text) => (otherNames.size ? text.replace(/[A-G][^\s,;:]*/g, (name) => otherNames.get(name) ?? name) : text);

  // The places of a note's values, as map_data.cpp writes them.
  const note = (index) => {
    const [onset, duration, midi, , bar, place, degree, governor, role, figure, placement, sure, reason, connection] =
      data.notes[index];
    return {
      onset, duration, midi, name: noteName(index), bar: data.bars[bar], place: words[place], degree: words[degree],
      chord: governor < 0 ? "" : chordName(governor), role: words[role], figure: words[figure],
      placement: words[placement], sure, reason: inNames(words[reason]), connection: words[connection],
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
  const aloud = (text) => text.replaceAll("♭", "flat ").replaceAll("♯", "sharp ");

  // What is asked of a note in place of saying it; "" where nothing is asked.
  let asks = () => "";
  const spoken = (index) => {
    const n = note(index);
    if (asks(index)) return `${where(n)}. ${asks(index)}`;
    return [where(n), aloud(against(n)), whatItIs(n), doubt(n), n.reason, n.connection && `connection ${aloud(n.connection)}`]
      .filter(Boolean).join(". ");
  };
  const relabel = (index) => elementOf(index).setAttribute("aria-label", spoken(index));

  // One note at a time is in the order of the Tab key; the arrow keys move on from it.
  let current = 0;
  data.notes.forEach((unused, index) => {
    const element = elementOf(index);
    element.setAttribute("role", "option");
    element.setAttribute("aria-label", spoken(index));
    element.setAttribute("aria-selected", "false");
    element.setAttribute("tabindex", index === 0 ? "0" : "-1");
  });
  score.removeAttribute("tabindex");

  const tip = document.getElementById("tip");
  const line = (text, kind) =>
    make(kind === "strong" ? "strong" : "p", { textContent: text, className: kind === "soft" ? "soft" : "" });
  const hideTip = () => {
    tip.hidden = true;
  };
  const showTip = (index) => {
    const n = note(index);
    const parts = [line(where(n), "strong")];
    if (asks(index)) parts.push(line(asks(index)));
    else {
      parts.push(line(against(n)), line(`${whatItIs(n)}${doubt(n, " (", ")")}`));
      if (n.reason) parts.push(line(n.reason));
      if (n.connection) parts.push(line(`Connection: ${n.connection}.`, "soft"));
    }
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
  const go = (index) => {
    const wanted = Math.max(0, Math.min(data.notes.length - 1, index));
    map.pieceOf(data.notes[wanted][4]); // a row that is cut later would take the focus away
    elementOf(wanted).focus({ preventScroll: false });
  };

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
  const tapped = []; // who wants to know of a note that was tapped
  const tap = (index) => {
    for (const listener of tapped) listener(index);
  };
  score.addEventListener("keydown", (event) => {
    if (event.key === "Escape") hideTip();
    if ((event.key === "Enter" || event.key === " ") && event.target.matches(".note")) {
      event.preventDefault();
      tap(indexOf(event.target));
    }
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
    if (!element) return;
    element.focus({ preventScroll: true });
    tap(indexOf(element));
  });
  for (const link of document.querySelectorAll("a.to-note"))
    link.addEventListener("click", (event) => {
      event.preventDefault();
      const element = document.querySelector(link.hash);
      map.pieceOf(data.notes[indexOf(element)][4]);
      element.scrollIntoView({ block: "center" });
      element.focus({ preventScroll: true });
    });

  // On a telephone the music comes first.
  if (matchMedia("(max-width: 30rem)").matches) document.getElementById("signs").open = false;
  addEventListener("beforeprint", () => { document.getElementById("signs").open = true; });

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
  const boxes = [...document.querySelectorAll("input[data-part]")];
  for (const box of boxes)
    box.addEventListener("change", () => {
      show(box.dataset.part, box.checked);
      address.set({ hide: boxes.filter(({ checked }) => !checked).map(({ dataset }) => dataset.part).join(",") });
    });
  for (const controls of document.querySelectorAll(".toggles")) controls.hidden = false;

  // Whose names.
  const namesFor = make("select", { id: "names-for" }, ...data.readers.map(([textContent], value) => make("option", { value, textContent })));
  document.querySelector(".toggles").append(make("span", { className: "tools" }, make("label", {}, "Names for ", namesFor)));
  const showNames = () => {
    for (const chord of score.querySelectorAll(".chord")) {
      const name = chordName(Number(chord.dataset.chord ?? chord.id.slice(1)));
      chord.textContent = chord.classList.contains("held") ? `(${name})` : name;
    }
    for (const octave of score.querySelectorAll(".octave")) {
      octave.dataset.octave = octave.dataset.octave ?? octave.textContent.slice(1);
      octave.textContent = `${moved() ? moved()[0] : "C"}${Number(octave.dataset.octave) + reader[2]}`;
    }
  };
  const readFor = (index) => {
    if (reader === data.readers[index]) return;
    reader = data.readers[index];
    namesFor.value = index;
    otherNames = new Map(moved() ? data.chords.map(([name], chord) => [name, chordName(chord)]) : []);
    showNames();
    data.notes.forEach((unused, i) => relabel(i));
    hideTip();
    document.querySelector("#all-notes .scroll")?.remove();
    if (document.getElementById("all-notes").open) fillTable();
  };
  namesFor.addEventListener("change", () => {
    readFor(Number(namesFor.value));
    address.set({ names: namesFor.value === "0" ? "" : data.readers[namesFor.value][0] });
  });
  map.onCut(() => {
    if (reader !== data.readers[0]) showNames();
  });

  // The notes as a table, made when it is opened: with thousands of notes it would be most of the file.
  const all = document.getElementById("all-notes");
  const fillTable = () => {
    const table = document.createElement("table");
    table.createCaption().textContent = "Every note, what it is and why. Sure: how probable just this role and figure is";
    const head = table.createTHead().insertRow();
    const columns = ["bar", "place", "note", "degree", "chord", "role", "figure", "placement", "sure", "reason"];
    head.append(...columns.map((textContent) => make("th", { scope: "col", textContent })));
    const body = table.createTBody();
    data.notes.forEach((unused, index) => {
      const n = note(index);
      const row = body.insertRow();
      const cells = [n.bar[0], n.place, n.name, n.degree, n.chord, n.role, n.figure, n.placement || "in place",
        n.sure < 100 ? `${n.sure} %` : "", n.reason];
      for (const text of cells) row.insertCell().textContent = text;
    });
    const frame = make("div", { className: "scroll", tabIndex: 0 }, table);
    frame.setAttribute("role", "region");
    frame.setAttribute("aria-label", "All notes");
    all.append(frame);
  };
  all.hidden = false;
  all.addEventListener("toggle", () => {
    if (all.open && !all.querySelector("table")) fillTable();
  });

  address.follow((values) => {
    const hidden = (values.hide || "").split(",");
    for (const box of boxes) {
      if (box.checked !== hidden.includes(box.dataset.part)) continue;
      box.checked = !box.checked;
      show(box.dataset.part, box.checked);
    }
    readFor(Math.max(0, data.readers.findIndex(([name]) => name === values.names)));
  });
  return {
    note, elementOf, against, whatItIs, where, relabel, hideTip,
    // `question(index)` is asked of a note in place of what it is, until it gives "".
    ask(question) {
      asks = question ?? (() => "");
      hideTip();
    },
    showTip,
    onTap(listener) { tapped.push(listener); },
  };
})();
