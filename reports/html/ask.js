// Ask and answer: what the map says is hidden, note by note, until the note is tapped. The notes of the chosen bars are
// asked, and counted at the end; nothing is kept but the topic, in the address.
"use strict";
(() => {
  const { map, line, loop, address, make } = insideline;
  if (!map) return;
  const score = document.getElementById("score");
  const { data } = map;
  const leads = (n) => n.connection.endsWith("guide tone");
  const isAsked = (n) => n.duration > 0 && n.chord !== "" && n.degree !== "";

  // What can be asked. `hunts`: the notes that answer are looked for, the others are beside the point.
  const topics = {
    degree: { name: "name the degree", ask: (n) => `Which degree of ${n.chord} is it?`, answer: line.against, asked: isAsked },
    role: {
      name: "in the chord or not", ask: (n) => `Over ${n.chord}: chord tone, tension, non-chord tone or outside?`,
      answer: line.whatItIs, asked: isAsked,
    },
    lead: {
      name: "where is a third or seventh led home or kept?", hunts: true, ask: () => "Is a third or a seventh led home to this note, or kept in it?",
      answer: (n) => (leads(n) ? `yes: ${n.connection}` : "not here"), asked: (n) => n.duration > 0 && n.chord !== "",
    },
  };
  let topic = null;
  let asked = new Set(); // notes that are still to be told
  let wanted = [];       // what is counted
  let known = new Set();
  let beside = 0;
  let latest = null;     // the note that was told last

  // A mark that says nothing of its note.
  const hide = (index, on) => {
    const element = line.elementOf(index);
    const mark = element.querySelector("use");
    element.classList.toggle("asked", on);
    if (on) {
      mark.dataset.told = mark.getAttribute("href");
      mark.setAttribute("href", mark.dataset.told.replace(/-[a-z]$/, "-c"));
    } else if (mark.dataset.told) mark.setAttribute("href", mark.dataset.told);
    line.relabel(index);
  };
  const reveal = (indexes) => {
    for (const index of indexes) {
      asked.delete(index);
      hide(index, false);
    }
  };

  const said = make("p", { id: "ask-said" });
  said.setAttribute("role", "status");
  const button = (id, textContent, act) => {
    const one = make("button", { type: "button", id, textContent });
    one.addEventListener("click", act);
    return one;
  };
  const knew = button("ask-knew", "I knew it", () => know(latest));
  knew.setAttribute("aria-keyshortcuts", "K");
  const showAll = button("ask-show", "Show the rest", () => { latest = null; reveal([...asked]); say(); });
  const again = button("ask-again", "Ask again", () => start(topic));
  const close = button("ask-close", "Leave off", () => choose(""));
  const panel = make("div", { id: "ask-panel", hidden: true }, said, make("div", { className: "ask-buttons" }, knew, showAll, again, close));

  const isTold = (index) => !asked.has(index);
  const isOver = () => (topics[topic].hunts ? wanted.every(isTold) : asked.size === 0);
  const inBars = (indexes) => {
    const numbers = [...new Set(indexes.map((index) => line.note(index).bar[0]))];
    return `${numbers.length === 1 ? "bar" : "bars"} ${numbers.join(", ")}`;
  };
  const count = () => {
    const told = wanted.filter(isTold).length;
    const missed = wanted.filter((index) => isTold(index) && !known.has(index));
    const { hunts } = topics[topic];
    const taps = beside === 0 ? "" : `, ${beside} ${beside === 1 ? "tap" : "taps"} beside it`;
    if (!isOver()) return hunts ? `${known.size} of ${wanted.length} found${taps}.` : `${told} of ${wanted.length} told, ${known.size} known.`;
    const open = missed.length === 0 ? "" : ` Look again at ${inBars(missed)}.`;
    return `That is all: ${known.size} of ${wanted.length} ${hunts ? "found" : "known"}${taps}.${open}`;
  };
  const say = () => {
    const { hunts, name, answer } = topics[topic];
    const parts = [];
    if (wanted.length === 0) parts.push("There is nothing of this kind in these bars.");
    else if (latest === null && !isOver())
      parts.push(hunts ? `Tap the notes: ${name}` : `Tap a note, ${name} aloud, and look: ${loop.inWords()}.`);
    if (latest !== null) parts.push(`${line.where(line.note(latest))}: ${answer(line.note(latest))}.`);
    if (wanted.length > 0) parts.push(count());
    said.textContent = parts.join(" ");
    knew.hidden = latest === null || hunts || known.has(latest);
    showAll.hidden = wanted.length === 0 || isOver();
    again.hidden = wanted.length === 0 || !isOver();
  };
  const know = (index) => {
    if (index === null || topics[topic].hunts) return;
    known.add(index);
    line.elementOf(index).focus({ preventScroll: true });
    say();
  };

  const stop = () => {
    reveal([...asked]);
    topic = null;
    score.classList.remove("asks");
    panel.hidden = true;
    line.ask(null);
  };
  const start = (name) => {
    if (topic) stop();
    topic = name;
    const { begin, end } = loop.range();
    const inRange = data.notes.map((unused, index) => index).filter((index) => data.notes[index][0] >= begin && data.notes[index][0] < end);
    asked = new Set(inRange.filter((index) => topics[topic].asked(line.note(index))));
    wanted = [...asked].filter((index) => !topics[topic].hunts || leads(line.note(index)));
    known = new Set();
    beside = 0;
    latest = null;
    line.ask((index) => (asked.has(index) ? topics[topic].ask(line.note(index)) : ""));
    for (const index of asked) hide(index, true);
    score.classList.add("asks");
    panel.hidden = false;
    say();
  };
  line.onTap((index) => {
    if (!topic || !asked.has(index)) return;
    reveal([index]);
    latest = index;
    if (topics[topic].hunts) {
      if (leads(line.note(index))) known.add(index);
      else beside += 1;
    }
    line.showTip(index);
    say();
  });
  score.addEventListener("keydown", (event) => {
    if (topic && (event.key === "k" || event.key === "K") && !event.ctrlKey && !event.altKey && !event.metaKey) know(latest);
  });

  const select = make("select", { id: "ask" }, make("option", { value: "", textContent: "nothing" }),
    ...Object.entries(topics).map(([value, { name }]) => make("option", { value, textContent: name })));
  document.querySelector(".tools").append(make("label", {}, "Ask me ", select));
  const choose = (name) => {
    select.value = name;
    if (name) start(name);
    else if (topic) stop();
    address.set({ ask: name });
  };
  select.addEventListener("change", () => choose(select.value));
  const dock = document.querySelector(".dock");
  if (dock) dock.prepend(panel);
  else score.after(panel);
  let bars = "";
  loop.onChange(() => {
    const { begin, end } = loop.range();
    if (topic && bars !== `${begin} ${end}`) start(topic);
    bars = `${begin} ${end}`;
  });
  address.follow(({ ask = "" }) => {
    const name = ask in topics ? ask : "";
    if (name === (topic ?? "")) return;
    select.value = name;
    if (name) start(name);
    else stop();
  });
})();
