// Which bars are played: the whole solo, a bar that was tapped, bars that were dragged over, a chorus, a section
// or a phrase. They are marked on the map and kept in the address.
"use strict";
insideline.loop = (() => {
  const { map, address } = insideline;
  if (!map) return null;
  const { data } = map;
  const score = document.getElementById("score");
  const bars = data.bars;
  const lastBar = bars.length - 1;
  const endOf = (bar) => bars[bar][1] + bars[bar][2];
  const choruses = [];
  if (data.chorus > 0)
    for (let begin = data.first_chorus; begin < endOf(lastBar) - 1e-6 && choruses.length < 999; begin += data.chorus)
      choruses.push([begin, Math.min(begin + data.chorus, endOf(lastBar))]);

  const sections = data.sections.map(([, begin, end]) => [Math.max(begin, bars[0][1]), Math.min(end, endOf(lastBar))]);
  // What has a number, counted from 1: from quarter to quarter.
  const parts = { chorus: choruses, section: sections, phrase: data.phrases };

  let chosen = { kind: "whole" }; // or bars { first, last }, or a part { number }
  let again = false;
  const listeners = [];

  const range = () => {
    if (chosen.kind === "bars") return { begin: bars[chosen.first][1], end: endOf(chosen.last) };
    if (chosen.kind in parts) {
      const [begin, end] = parts[chosen.kind][chosen.number - 1];
      if (chosen.kind !== "phrase") return { begin, end };
      return { begin: Math.floor(begin), end: Math.max(Math.floor(begin) + 1, Math.ceil(end)) }; // from beat to beat
    }
    return { begin: bars[0][1], end: endOf(lastBar) };
  };
  const edges = () => {
    const { begin, end } = range();
    return { first: map.barAtTime(begin), last: map.barAtTime(end - 1e-3) };
  };
  const inBars = () => {
    const { first, last } = edges();
    return first === last ? `bar ${bars[first][0]}` : `bars ${bars[first][0]} to ${bars[last][0]}`;
  };
  const inWords = () => {
    if (chosen.kind === "whole") return "whole solo";
    if (chosen.kind === "bars") return inBars();
    return `${chosen.kind} ${chosen.kind === "section" ? data.sections[chosen.number - 1][0] : chosen.number}`;
  };

  const mark = () => {
    for (const old of score.querySelectorAll(".chosen")) old.remove();
    if (chosen.kind === "whole") return;
    const { begin, end } = range();
    const { first, last } = edges();
    const marked = new Set();
    for (let bar = first; bar <= last; bar += 1) marked.add(map.pieceNow(bar));
    for (const piece of marked) {
      const from = map.xOf(piece, Math.max(begin, bars[piece.first][1]));
      const to = map.xOf(piece, Math.min(end, endOf(piece.last)));
      const box = document.createElementNS("http://www.w3.org/2000/svg", "rect");
      for (const [name, value] of Object.entries({ class: "chosen", "aria-hidden": "true", x: from, y: 1, width: to - from, height: piece.system.height - 2 }))
        box.setAttribute(name, value);
      piece.svg.prepend(box);
    }
  };
  const inAddress = () => {
    const { kind, number } = chosen;
    address.set({
      bars: kind === "bars" ? `${bars[chosen.first][0]}-${bars[chosen.last][0]}` : "",
      ...Object.fromEntries(Object.keys(parts).map((part) => [part, kind === part ? number : ""])), loop: again ? 1 : "",
    });
  };
  const changed = () => {
    mark();
    for (const listener of listeners) listener();
  };
  const choose = (what, repeat = again) => {
    chosen = what;
    again = repeat;
    inAddress();
    changed();
  };
  const chooseBars = (a, b, repeat = true) => choose({ kind: "bars", first: Math.min(a, b), last: Math.max(a, b) }, repeat);
  const isJust = (bar) => chosen.kind === "bars" && chosen.first === bar && chosen.last === bar;

  address.follow((values) => {
    const indexOf = (number) => bars.findIndex((bar) => String(bar[0]) === number);
    const [, from, to] = (values.bars || "").match(/^(\d+)(?:-(\d+))?$/) || [];
    const first = indexOf(from);
    const last = to === undefined ? first : indexOf(to);
    const isOf = (number, list) => /^\d+$/.test(number || "") && Number(number) >= 1 && Number(number) <= list.length;
    if (first >= 0 && last >= first) chosen = { kind: "bars", first, last };
    else {
      const kind = Object.keys(parts).find((part) => isOf(values[part], parts[part]));
      chosen = kind ? { kind, number: Number(values[kind]) } : { kind: "whole" };
    }
    again = values.loop === "1";
    changed();
    if (chosen.kind !== "whole") map.pieceOf(edges().first).svg.scrollIntoView({ block: "center", behavior: "instant" });
  });
  map.onCut(mark);

  // A tap beside the notes, or a drag over bars. Up and down a finger scrolls the page as ever.
  let pressed = null;
  score.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || event.target.closest(".note")) return;
    const bar = map.barUnder(event.clientX, event.clientY);
    pressed = bar === null ? null : { bar, x: event.clientX, y: event.clientY, dragged: false, id: event.pointerId };
  });
  addEventListener("pointermove", (event) => {
    if (!pressed || event.pointerId !== pressed.id) return;
    pressed.dragged = pressed.dragged || Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) > 8;
    if (!pressed.dragged) return;
    const bar = map.barUnder(event.clientX, event.clientY);
    if (bar !== null && bar !== pressed.upTo) chooseBars(pressed.bar, bar);
    pressed.upTo = bar ?? pressed.upTo;
  });
  addEventListener("pointercancel", () => { pressed = null; });
  addEventListener("pointerup", (event) => {
    if (!pressed || event.pointerId !== pressed.id) return;
    const { bar, dragged } = pressed;
    pressed = null;
    if (dragged) return;
    if (event.shiftKey && chosen.kind === "bars") chooseBars(chosen.first, bar);
    else if (isJust(bar)) choose({ kind: "whole" }, false);
    else chooseBars(bar, bar);
  });
  // The same by keyboard, from the note that has the focus.
  score.addEventListener("keydown", (event) => {
    if (!event.target.matches(".note") || event.altKey || event.ctrlKey || event.metaKey) return;
    const bar = data.notes[Number(event.target.id.slice(1))][4];
    const { first, last } = edges();
    if (event.key === "l" || event.key === "L") {
      if (isJust(bar)) choose({ kind: "whole" }, false);
      else chooseBars(bar, bar);
    }
    if (event.key === "[") chooseBars(bar, Math.max(bar, last));
    if (event.key === "]") chooseBars(Math.min(first, bar), bar);
  });
  return {
    range, edges, inWords, choose, chooseBars, choruses, sections,
    get again() { return again; },
    set again(on) { choose(chosen, on); },
    get chosen() { return chosen; },
    onChange(listener) { listeners.push(listener); },
  };
})();
