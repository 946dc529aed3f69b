// Rows as wide as the screen: a system of the line map is cut into rows of as many bars as can be read there, and put
// together again where there is room. Of a long solo only the systems near the window are cut. Also answers which bar is
// where.
"use strict";
insideline.map = (() => {
  const score = document.getElementById("score");
  const source = document.getElementById("data");
  if (!score || !source) return null;
  const data = JSON.parse(source.textContent);
  const left = Number(score.dataset.left);
  const perQuarter = Number(score.dataset.quarter);
  const margin = 26; // for the names of the octaves, in units of the drawing
  const smallest = 0.8; // of the drawn size that lettering is still read at
  const svgNames = "http://www.w3.org/2000/svg";

  const systems = [...score.querySelectorAll(".system")].map((element) => {
    const [first, last] = element.dataset.bars.split(" ").map(Number);
    const whole = element.querySelector("svg.map");
    const [, , width, height] = whole.getAttribute("viewBox").split(" ").map(Number);
    return { element, first, last, whole, width, height, onset: data.bars[first][1], pieces: [] };
  });
  const endOf = (bar) => data.bars[bar][1] + data.bars[bar][2];
  const xOf = (system, time) => left + perQuarter * (time - system.onset);
  const place = (element) => Number(element.getAttribute("x") ?? element.getAttribute("transform")?.match(/-?[\d.]+/)[0] ?? 0);

  const asWhole = (system) => {
    system.pieces = [{ svg: system.whole, system, first: system.first, last: system.last }];
  };
  const putTogether = (system) => {
    if (system.pieces[0].svg === system.whole) return;
    const frame = system.whole.querySelector(".frame");
    for (const { svg } of system.pieces) {
      frame.append(...svg.querySelectorAll(".frame .chord[id], .frame .chord.own"));
      system.whole.append(...svg.querySelectorAll(".note"));
      svg.remove();
    }
    system.element.append(system.whole);
    asWhole(system);
  };

  // Words that would leave the row end with it. A letter of them is about so wide.
  const letter = 6.8;
  const keepInside = (words, to) => {
    if (place(words) + letter * words.textContent.length <= to) return;
    words.setAttribute("text-anchor", "end");
    words.setAttribute("x", to);
  };
  // Lanes and the lines of the octaves end with the bars.
  const clipped = (group, from, to, height) => {
    const frame = document.createElementNS(svgNames, "svg");
    for (const [name, value] of Object.entries({ x: from, y: 0, width: to - from, height, viewBox: `${from} 0 ${to - from} ${height}`, "aria-hidden": "true" }))
      frame.setAttribute(name, value);
    frame.append(group);
    return frame;
  };
  // The parts of a group that belong between two places; lines are drawn through and cut by the edge.
  const partOf = (group, from, to, height) => {
    const copy = group.cloneNode(false);
    for (const part of group.children) {
      if (part.matches(".chord, .chorus-name")) continue;
      if (part.matches(".octaves")) copy.append(clipped(part.cloneNode(true), from, to, height));
      else if (part.matches(".octave")) {
        copy.append(part.cloneNode(true));
        copy.lastChild.setAttribute("x", from - 5);
      } else if (part.tagName !== "text" || (place(part) >= from - 3 && place(part) < to - 3)) {
        copy.append(part.cloneNode(true));
        if (group.matches(".brackets") && part.tagName === "text") keepInside(copy.lastChild, to);
      }
    }
    return copy;
  };
  const numbered = (first, last) => {
    const names = [data.bars[first][0], data.bars[last][0]];
    if (names[1] < 1) return "pickup";
    return names[0] === names[1] ? `bar ${names[0]}` : `bars ${names[0]} to ${names[1]}`;
  };
  // The chord that sounds on where a row begins stands there in brackets.
  const heldChord = (chords, time, x) => {
    const index = data.chords.findIndex(([, onset, duration]) => onset < time && onset + duration > time);
    if (index < 0 || chords.some((chord) => Math.abs(place(chord) - x - 3) < 0.5)) return [];
    const text = document.createElementNS(svgNames, "text");
    text.setAttribute("class", "chord held");
    text.setAttribute("data-chord", index);
    text.setAttribute("x", x + 3);
    text.setAttribute("y", 35);
    text.textContent = `(${data.chords[index][0]})`;
    return [text];
  };
  const row = (system, first, last) => {
    const from = xOf(system, data.bars[first][1]);
    const to = xOf(system, endOf(last));
    const svg = document.createElementNS(svgNames, "svg");
    svg.setAttribute("class", "map");
    svg.setAttribute("role", "group");
    svg.setAttribute("aria-label", numbered(first, last));
    svg.setAttribute("viewBox", `${from - margin} 0 ${to - from + margin + 2} ${system.height}`);
    const within = (element) => place(element) >= from - 1 && (place(element) < to - 1 || last === system.last);
    const chords = [...system.whole.querySelectorAll(".frame .chord")].filter(within);
    for (const group of system.whole.querySelectorAll(":scope > g[aria-hidden]")) {
      const part = partOf(group, from, to, system.height);
      if (group.matches(".frame")) {
        for (const chord of chords) if (!chord.id) chord.classList.add("own");
        part.append(...chords, ...heldChord(chords, data.bars[first][1], from));
      }
      svg.append(group.matches(".lanes") ? clipped(part, from, to, system.height) : part);
    }
    svg.append(...[...system.whole.querySelectorAll(":scope > .note")].filter(within));
    return { svg, system, first, last };
  };
  const cut = (system, bars) => {
    putTogether(system);
    if (system.last - system.first + 1 <= bars) return;
    const pieces = [];
    for (let first = system.first; first <= system.last; first += bars)
      pieces.push(row(system, first, Math.min(system.last, first + bars - 1)));
    system.whole.remove();
    system.element.append(...pieces.map(({ svg }) => svg));
    system.pieces = pieces;
  };

  // All of a system, half of it, a quarter ... a bar.
  const barsThatFit = (width) => {
    const most = Math.max(...systems.map(({ first, last }) => last - first + 1));
    const longest = Math.max(...data.bars.map((bar) => bar[2])) * perQuarter;
    if (width / systems[0].width >= smallest) return most;
    let bars = Math.ceil(most / 2);
    while (bars > 1 && width / (bars * longest + margin + 2) < smallest) bars = Math.ceil(bars / 2);
    return bars;
  };
  let shown = 0;
  let told = [];
  const manySystems = 40;
  const cutNow = (system) => {
    if (system.waits) cut(system, shown);
    system.waits = false;
  };
  // A note that moves into another row would lose the focus.
  const keepingFocus = (change) => {
    const focused = document.activeElement;
    change();
    if (focused !== document.activeElement && score.contains(focused)) focused.focus({ preventScroll: true });
  };
  const tellAll = () => {
    for (const tell of told) tell();
  };
  const near = new IntersectionObserver((seen) => {
    const come = seen.filter(({ isIntersecting }) => isIntersecting).map(({ target }) => systems.find(({ element }) => element === target))
      .filter(({ waits }) => waits);
    keepingFocus(() => come.forEach(cutNow));
    if (come.length) tellAll();
  }, { rootMargin: "1500px" });
  // What is not cut yet takes the room that its rows will take.
  const leave = (system, bars, width) => {
    putTogether(system);
    system.waits = true;
    const count = Math.ceil((system.last - system.first + 1) / bars);
    const wide = count === 1 ? system.width : (system.width - left) / count + margin;
    system.element.style.containIntrinsicSize = `auto ${Math.round((count * system.height * width) / wide)}px`;
    near.observe(system.element);
  };
  const fit = () => {
    const style = getComputedStyle(score);
    const width = score.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    const bars = barsThatFit(width);
    if (bars === shown || width <= 0 || matchMedia("print").matches) return;
    shown = bars;
    keepingFocus(() => {
      if (systems.length <= manySystems) for (const system of systems) cut(system, bars);
      else for (const system of systems) leave(system, bars, width);
    });
    tellAll();
  };
  for (const system of systems) asWhole(system);
  fit();
  addEventListener("resize", fit);
  addEventListener("beforeprint", () => {
    for (const system of systems) {
      putTogether(system);
      system.waits = false;
    }
    shown = 0;
  });
  addEventListener("afterprint", fit);

  const pieces = () => systems.flatMap((system) => system.pieces);
  const isIn = (bar) => ({ first, last }) => bar >= first && bar <= last;
  const pieceNow = (bar) => systems.find(isIn(bar))?.pieces.find(isIn(bar));
  // Cut where it was not yet: somebody wants to see this bar.
  const pieceOf = (bar) => {
    const system = systems.find(isIn(bar));
    if (system?.waits) {
      cutNow(system);
      tellAll();
    }
    return pieceNow(bar);
  };
  return {
    data,
    pieceOf,
    pieceNow,
    onCut(tell) { told.push(tell); },
    xOf: (piece, time) => xOf(piece.system, time),
    barAtTime: (time) => Math.max(0, data.bars.findLastIndex((bar) => bar[1] <= time + 1e-6)),
    // The index of the bar under a point of the window.
    barUnder(x, y) {
      const svg = document.elementFromPoint(x, y)?.closest("#score svg.map");
      const piece = svg && pieces().find((one) => one.svg === svg);
      if (!piece) return null;
      const across = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM().inverse()).x;
      for (let bar = piece.first; bar <= piece.last; bar += 1)
        if (across < xOf(piece.system, endOf(bar)) || bar === piece.last) return bar;
      return null;
    },
  };
})();
