// The same bars of two solos: in which order they stand, which solo is beside the first, and each line to be heard. The
// order and the solo stay in the page's address.
"use strict";
(() => {
  const source = document.getElementById("data");
  const controls = document.getElementById("beside-controls");
  const host = document.getElementById("beside-player");
  if (!source || !controls || !host) return;
  const { address, make, schedule, sound } = insideline;
  const { solos } = JSON.parse(source.textContent);
  const pairs = [...document.querySelectorAll(".pair")];
  const shownAtFirst = 12;

  // In which order, how many, and which pair.
  let order = "difference";
  let shown = pairs[0].dataset.pair;
  let all = false;
  const orders = Object.entries({ difference: "Most different first", bars: "In the order of the bars" })
    .map(([name, textContent]) => {
      const button = make("button", { type: "button", textContent });
      button.dataset.order = name;
      button.addEventListener("click", () => choose({ order: name }));
      return button;
    });
  const which = make("select", { id: "beside-which" }, ...pairs.map(({ dataset }) => make("option", { value: dataset.pair, textContent: dataset.name })));
  which.addEventListener("change", () => choose({ beside: which.value }));
  const more = make("button", { type: "button", id: "beside-all" });
  more.addEventListener("click", () => { all = !all; show(); });
  const moreRow = make("p", { className: "controls" }, more);
  const orderChoice = make("span", { className: "choice" }, ...orders);
  orderChoice.setAttribute("role", "group");
  orderChoice.setAttribute("aria-label", "Order of the bars");
  controls.append(orderChoice, ...(pairs.length > 1 ? [make("label", {}, "Beside the first: ", which)] : []));
  controls.hidden = false;

  const show = () => {
    for (const button of orders) button.setAttribute("aria-pressed", String(button.dataset.order === order));
    which.value = shown;
    for (const pair of pairs) {
      pair.hidden = pair.dataset.pair !== shown;
      if (pair.hidden) continue;
      const list = pair.querySelector(".cards");
      const key = order === "bars" ? "place" : "rank";
      const cards = [...list.children].sort((a, b) => Number(a.dataset[key]) - Number(b.dataset[key]));
      list.append(...cards);
      cards.forEach((card, i) => { card.hidden = !all && i >= shownAtFirst; });
      more.hidden = cards.length <= shownAtFirst;
      more.textContent = all ? `Show the first ${shownAtFirst} bars only` : `Show all ${cards.length} bars`;
      list.after(moreRow);
    }
  };
  const choose = (changes) => {
    order = changes.order ?? order;
    shown = changes.beside ?? shown;
    address.set({ order: order === "bars" ? "bars" : "", beside: shown === pairs[0].dataset.pair ? "" : shown });
    show();
  };
  address.follow((values) => {
    order = values.order === "bars" ? "bars" : "difference";
    shown = pairs.some(({ dataset }) => dataset.pair === values.beside) ? values.beside : pairs[0].dataset.pair;
    show();
  });
  // A link to a card that is not shown.
  const uncover = () => {
    const card = /^#s\d+-b\d+$/.test(location.hash) && document.querySelector(location.hash);
    if (!card) return;
    const pair = card.closest(".pair").dataset.pair;
    if (!card.hidden && pair === shown) return;
    all = true;
    shown = pair;
    show();
    card.scrollIntoView({ block: "center", behavior: "instant" });
  };
  addEventListener("hashchange", uncover);
  uncover();

  // Listening: one line of one bar at a time.
  const Audio = window.AudioContext || window.webkitAudioContext;
  if (!Audio) {
    host.append(make("p", { textContent: "This browser cannot sound the lines." }));
    return;
  }
  const playing = make("button", { type: "button", id: "play", textContent: "Stop", disabled: true });
  const where = make("span", { id: "where", textContent: "Choose a line to hear" });
  const again = make("input", { type: "checkbox", id: "loop" });
  const slider = (id, min, max, value) => make("input", { type: "range", id, min, max, value });
  const firstTempo = Math.min(320, Math.max(40, solos[0].tempo));
  const tempo = slider("tempo", 40, 320, firstTempo);
  const tempoSaid = make("output", { id: "tempo-said", title: "quarter notes a minute", textContent: firstTempo });
  const volume = slider("volume", 0, 100, 15);
  const chords = make("input", { type: "checkbox", id: "chords-on", checked: true });
  const step = (by, text, name) => {
    const button = make("button", { type: "button", textContent: text });
    button.setAttribute("aria-label", name);
    button.addEventListener("click", () => {
      tempo.value = Number(tempo.value) + by;
      tempo.dispatchEvent(new Event("input"));
    });
    return button;
  };
  tempo.setAttribute("aria-label", "Tempo");
  const drawer = make("div", { id: "player-more", hidden: true },
    make("span", { className: "channel" }, make("label", { htmlFor: "volume", textContent: "Volume" }), volume),
    make("span", { className: "channel" }, make("label", { htmlFor: "tempo", textContent: "Tempo" }), tempo),
    make("label", {}, chords, " Chords"),
    make("p", { textContent: "It starts quiet: turn it up slowly, above all with headphones, and no further than is comfortable. Your ears know best." }));
  const settings = make("button", { type: "button", id: "more", textContent: "Settings" });
  settings.setAttribute("aria-expanded", "false");
  settings.setAttribute("aria-controls", "player-more");
  settings.addEventListener("click", () => {
    drawer.hidden = !drawer.hidden;
    settings.setAttribute("aria-expanded", String(!drawer.hidden));
  });
  const dock = make("div", { className: "dock" }, drawer, make("div", { className: "dock-row" }, playing, where, make("label", {}, again, " Loop"),
    make("span", { className: "stepper" }, step(-5, "−", "Slower"), tempoSaid, step(5, "+", "Faster")), settings));
  dock.setAttribute("role", "region");
  dock.setAttribute("aria-label", "Player");
  where.setAttribute("role", "status");
  host.append(dock);
  new ResizeObserver(() => document.documentElement.style.setProperty("--dock", `${dock.offsetHeight}px`)).observe(dock);

  let context = null;
  let sounds = null;
  let running = null; // { button, plan, shown, timer }

  const levels = () => {
    if (!sounds) return;
    sounds.level("master", Number(volume.value) / 100);
    sounds.level("chords", chords.checked ? 1 : 0);
    sounds.level("click", 0);
  };
  const light = (index) => {
    for (const lit of document.querySelectorAll(".card .lit")) lit.classList.remove("lit");
    if (index === undefined) return;
    running.button.closest(".line-beside").querySelector(`[data-note="${index}"]`)?.classList.add("lit");
  };
  const stop = () => {
    if (!running) return;
    clearInterval(running.timer);
    sounds.silence();
    running.button.setAttribute("aria-pressed", "false");
    light();
    running = null;
    playing.disabled = true;
    where.textContent = "Choose a line to hear";
  };
  const planned = (button, start) => {
    const data = solos[Number(button.dataset.read)];
    const [, begin, length] = data.bars[Number(button.dataset.bar)];
    const swing = data.swing ? 0.62 : 0.5;
    return schedule.timeline(data, { tempo: Number(tempo.value), swing, loop: again.checked, countIn: 0 },
      { begin, end: begin + length }, start);
  };
  const ahead = 1.2; // enough that a busy browser is never late
  const tick = () => {
    if (!running) return;
    const now = context.currentTime;
    for (const event of running.plan.take(now + ahead)) {
      sounds.play(event, event.when);
      if (event.kind === "note") running.shown.push(event);
    }
    while (running.shown.length && running.shown[0].when <= now) light(running.shown.shift().index);
    if (running.plan.isOver(now)) stop();
  };
  const play = async (button) => {
    stop();
    context = context || new Audio();
    sounds = sounds || sound(context);
    await context.resume();
    stop(); // another was pressed meanwhile
    levels();
    running = { button, plan: planned(button, context.currentTime + 0.12), shown: [], timer: setInterval(tick, 25) };
    button.setAttribute("aria-pressed", "true");
    playing.disabled = false;
    where.textContent = button.getAttribute("aria-label").replace(/: play$/, "");
  };
  // Under another tempo, or looped from now on, the bar begins anew.
  const anew = () => {
    if (!running) return;
    sounds.silence();
    running.shown = [];
    running.plan = planned(running.button, context.currentTime + 0.12);
  };
  for (const button of document.querySelectorAll(".hear")) {
    button.hidden = false;
    button.addEventListener("click", () => (running?.button === button ? stop() : play(button)));
  }
  playing.addEventListener("click", stop);
  again.addEventListener("change", anew);
  tempo.addEventListener("input", () => { tempoSaid.textContent = tempo.value; anew(); });
  for (const input of [volume, chords]) input.addEventListener("input", levels);
  document.addEventListener("keydown", (event) => { if (event.key === "Escape") stop(); });
})();
