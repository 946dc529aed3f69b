// The player at the foot of the screen: it stays where it is, whatever the page does.
"use strict";
(() => {
  const host = document.getElementById("player");
  const { map, loop, schedule, sound, make } = insideline;
  const Audio = window.AudioContext || window.webkitAudioContext;
  if (!host || !map) return;
  if (!Audio) {
    host.textContent = "This browser cannot sound the line.";
    return;
  }
  const { data } = map;
  const { bars } = data;
  const calm = matchMedia("(prefers-reduced-motion: reduce)");

  const slider = (id, min, max, value, step = 1) => make("input", { type: "range", id, min, max, step, value });
  const number = (id, min, max, value) => make("input", { type: "number", id, min, max, value });
  const box = (id, checked) => make("input", { type: "checkbox", id, checked });
  const labelled = (text, ...controls) => make("label", {}, `${text} `, ...controls);
  const group = (text, ...children) => make("fieldset", {}, make("legend", { textContent: text }), ...children);
  const button = (id, text, name = "") => {
    const one = make("button", { type: "button", id, textContent: text });
    if (name) one.setAttribute("aria-label", name);
    return one;
  };

  const playing = button("play", "Play");
  playing.setAttribute("aria-keyshortcuts", "P");
  const where = make("span", { id: "where" });
  const again = box("loop", false);
  const tempo = slider("tempo", 40, 320, data.tempo);
  const tempoSaid = make("output", { id: "tempo-said" });
  const more = button("more", "Settings");
  const from = number("from-bar", bars[0][0], bars[bars.length - 1][0], bars[0][0]);
  const to = number("to-bar", bars[0][0], bars[bars.length - 1][0], bars[bars.length - 1][0]);
  const what = make("select", { id: "what" });
  const swing = slider("swing", 50, 70, data.swing ? 62 : 50);
  const swingSaid = make("output", { id: "swing-said" });
  const countIn = make("select", { id: "count-in" }, ...["none", "1 bar", "2 bars"].map((textContent, value) => make("option", { value, textContent })));
  const steps = { passes: number("step-passes", 0, 99, 0), by: number("step-by", 1, 50, 5), top: number("step-top", 40, 320, Math.min(320, data.tempo + 40)) };
  const volume = slider("volume", 0, 100, 15);
  const channels = Object.entries({ line: ["Line", true, 100], chords: ["Chords", true, 100], click: ["Click", false, 60] })
    .map(([name, [text, on, value]]) => ({ name, text, on: box(`${name}-on`, on), level: slider(`${name}-level`, 0, 100, value) }));
  for (const { text, level } of channels) level.setAttribute("aria-label", `${text}, how loud`);
  const link = make("a", { id: "place-link", href: "#", textContent: "Link to these bars and this view" });

  const drawer = make("div", { id: "player-more", hidden: true },
    group("What to play", labelled("Part", what),
      make("span", { className: "pair" }, labelled("Bars", from), labelled("to", to)), link),
    group("Time", labelled("Tempo", tempo), labelled("Off-beats at", swing), swingSaid, labelled("Count-in", countIn)),
    group("Faster by itself", make("span", { className: "pair" }, labelled("After", steps.passes), " passes"),
      make("span", { className: "pair" }, labelled("by", steps.by), labelled("up to", steps.top))),
    group("How loud", labelled("Volume", volume), ...channels.map(({ text, on, level }) => make("span", { className: "channel" }, make("label", {}, on, ` ${text}`), level))),
    make("p", { className: "soft", textContent: "Keys: P plays and stops, Escape stops. From a note of the map, L plays its bar again and again, [ and ] set the first and the last bar." }));
  more.setAttribute("aria-expanded", "false");
  more.setAttribute("aria-controls", "player-more");
  const dock = make("div", { className: "dock" }, drawer,
    make("div", { className: "dock-row" }, playing, where, make("label", { className: "again" }, again, " Loop"),
      make("span", { className: "stepper" }, button("slower", "−", "Slower"), tempoSaid, button("faster", "+", "Faster")), more));
  dock.setAttribute("role", "region");
  dock.setAttribute("aria-label", "Player");
  host.replaceChildren(make("h3", { textContent: "Listen" }),
    make("p", { textContent: "The player stands at the foot of the screen. It starts quiet: turn it up slowly, above all with headphones, " +
      "and no further than is comfortable. Your ears know best." }), dock);
  // What it covers stays within reach: the page ends above it, and a link to some bars shows them over it.
  let laidOut = false;
  new ResizeObserver(() => {
    document.documentElement.style.setProperty("--dock", `${dock.offsetHeight}px`);
    if (!laidOut && loop.chosen.kind !== "whole") map.pieceOf(loop.edges().first).svg.scrollIntoView({ block: "nearest", behavior: "instant" });
    laidOut = true;
  }).observe(dock);

  const settings = () => ({
    tempo: Number(tempo.value), swing: Number(swing.value) / 100, loop: loop.again, countIn: Number(countIn.value),
    steps: { passes: Math.round(Number(steps.passes.value)), by: Number(steps.by.value), top: Math.min(320, Number(steps.top.value)) },
  });
  const sayTempo = (now = Number(tempo.value)) => {
    tempoSaid.textContent = `${Math.round(now)}`;
    tempoSaid.title = "quarter notes a minute";
  };
  const saySwing = () => {
    swingSaid.textContent = Number(swing.value) === 50 ? "straight" : `${swing.value} % of the beat`;
  };

  // What there is to choose.
  const option = (value, textContent) => make("option", { value, textContent });
  const ofBars = (begin, end) => `bars ${bars[map.barAtTime(begin)][0]} to ${bars[map.barAtTime(end - 1e-3)][0]}`;
  const custom = option("bars", "chosen bars");
  what.append(option("whole", "whole solo"), custom,
    ...data.sections.map(([name], i) => option(`section ${i + 1}`, `section ${name}, ${ofBars(...loop.sections[i])}`)),
    ...(loop.choruses.length > 1 ? loop.choruses.map(([begin, end], i) => option(`chorus ${i + 1}`, `chorus ${i + 1}, ${ofBars(begin, end)}`)) : []),
    ...data.phrases.map(([begin, end], i) => option(`phrase ${i + 1}`, `phrase ${i + 1}, ${ofBars(begin, end)}`)));
  what.addEventListener("change", () => {
    const [kind, count] = what.value.split(" ");
    if (kind === "bars") loop.chooseBars(loop.edges().first, loop.edges().last, loop.again);
    else loop.choose(kind === "whole" ? { kind } : { kind, number: Number(count) });
  });
  const barNumbered = (input) => {
    const wanted = Math.round(Number(input.value));
    return Math.max(0, Math.min(bars.length - 1, bars.findIndex((bar) => bar[0] >= wanted)));
  };
  for (const input of [from, to])
    input.addEventListener("input", () => { if (input.value !== "") loop.chooseBars(barNumbered(from), barNumbered(to), loop.again); });
  again.addEventListener("change", () => { loop.again = again.checked; });

  let context = null;
  let sounds = null;
  let running = null; // { plan, shown, lit, timer, bar }

  const light = (kind, index) => {
    for (const element of running.lit[kind] ?? []) element.classList.remove("lit");
    running.lit[kind] = index === undefined ? [] : [document.getElementById(`${kind}${index}`)].filter(Boolean);
    for (const element of running.lit[kind]) element.classList.add("lit");
  };
  // The bar that sounds is always in the picture.
  const follow = (time) => {
    const { quarters, tempo: now } = running.plan.placeAt(time);
    const bar = map.barAtTime(quarters);
    if (running.tempo !== now) sayTempo(now);
    running.tempo = now;
    if (bar === running.bar) return;
    running.bar = bar;
    where.textContent = bars[bar][0] < 1 ? "pickup" : `bar ${bars[bar][0]}`;
    map.pieceOf(bar).svg.scrollIntoView({ block: "nearest", behavior: calm.matches ? "instant" : "smooth" });
    document.dispatchEvent(new CustomEvent("bar-sounds", { detail: bar }));
  };
  // Hands over what begins within the next moment, far enough ahead that a busy browser is never late.
  const ahead = 1.2;
  const tick = () => {
    if (!running) return;
    const now = context.currentTime;
    for (const event of running.plan.take(now + ahead)) {
      sounds.play(event, event.when);
      if (event.kind !== "click") running.shown.push(event);
    }
    while (running.shown.length && running.shown[0].when <= now) {
      const { kind, index } = running.shown.shift();
      light(kind === "note" ? "n" : "c", index);
    }
    follow(now);
    if (running.plan.isOver(now)) stop();
  };
  // What was planned under other settings is taken back; the place in the line stays.
  const replan = () => {
    if (!running) return;
    const now = context.currentTime + 0.03;
    const { quarters, pass } = running.plan.placeAt(now);
    const range = loop.range();
    const inside = quarters >= range.begin && quarters < range.end;
    const speed = schedule.tempoOf(settings(), inside ? pass : 0);
    const start = inside ? now - ((quarters - range.begin) * 60) / speed : now + 0.1;
    sounds.forget(now);
    running.shown = running.shown.filter(({ when }) => when < now);
    running.plan = schedule.timeline(data, { ...settings(), countIn: 0 }, range, start, inside ? pass : 0);
    running.plan.take(now);
  };
  const setLevels = () => {
    if (!sounds) return;
    sounds.level("master", Number(volume.value) / 100);
    for (const { name, on, level } of channels) sounds.level(name, on.checked ? Number(level.value) / 100 : 0);
  };
  const stop = () => {
    if (!running) return;
    light("n");
    light("c");
    sounds.silence();
    clearInterval(running.timer);
    running = null;
    playing.textContent = "Play";
    playing.setAttribute("aria-pressed", "false");
    show();
  };
  const narrow = matchMedia("(max-width: 48rem), (max-height: 36rem)");
  const open = (on) => {
    drawer.hidden = !on;
    more.setAttribute("aria-expanded", String(on));
  };
  const play = async () => {
    if (narrow.matches) open(false); // it would stand before the bar that sounds
    context = context || new Audio();
    sounds = sounds || sound(context);
    where.textContent = "waiting for the sound";
    await context.resume();
    if (running) return;
    setLevels();
    const now = settings();
    const begin = context.currentTime + 0.15 + schedule.countIn(data, now, loop.range()).seconds;
    running = { plan: schedule.timeline(data, now, loop.range(), begin), lit: {}, shown: [], timer: setInterval(tick, 25) };
    playing.textContent = "Stop";
    playing.setAttribute("aria-pressed", "true");
  };
  const toggle = () => (running ? stop() : play());

  const show = () => {
    const { first, last } = loop.edges();
    if (document.activeElement !== from) from.value = bars[first][0];
    if (document.activeElement !== to) to.value = bars[last][0];
    again.checked = loop.again;
    const { kind, number: count } = loop.chosen;
    what.value = count ? `${kind} ${count}` : kind;
    if (!running) {
      where.textContent = loop.inWords();
      sayTempo();
    }
  };
  loop.onChange(() => {
    show();
    replan();
  });
  playing.addEventListener("click", toggle);
  more.addEventListener("click", () => open(drawer.hidden));
  document.addEventListener("keydown", (event) => {
    const typing = event.target.closest && event.target.closest("input[type=number], textarea, select, dialog");
    if (typing || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "p" || event.key === "P") toggle();
    if (event.key === "Escape") stop();
  });
  for (const [id, by] of Object.entries({ slower: -5, faster: 5 }))
    dock.querySelector(`#${id}`).addEventListener("click", () => {
      tempo.value = Number(tempo.value) + by;
      tempo.dispatchEvent(new Event("input"));
    });
  tempo.addEventListener("input", () => sayTempo());
  swing.addEventListener("input", saySwing);
  for (const input of [tempo, swing, ...Object.values(steps)]) input.addEventListener("input", replan);
  for (const input of [volume, ...channels.flatMap(({ on, level }) => [on, level])]) input.addEventListener("input", setLevels);
  link.hidden = !insideline.address.isOwn;
  document.addEventListener("address", ({ detail }) => { link.href = detail; });
  link.href = insideline.address.hash();
  saySwing();
  show();
})();
