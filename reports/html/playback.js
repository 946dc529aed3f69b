// The line sounded over its chords, by oscillators alone. Times are quarter notes until the last moment.
"use strict";
(() => {
  const host = document.getElementById("playback");
  const source = document.getElementById("data");
  const Audio = window.AudioContext || window.webkitAudioContext;
  if (!host || !source) return;
  if (!Audio) {
    host.textContent = "This browser cannot sound the line.";
    return;
  }
  const data = JSON.parse(source.textContent);
  const { notes, chords, bars } = data;
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  const firstBar = bars[0][0];
  const lastBar = bars[bars.length - 1][0];

  const make = (tag, settings = {}, ...children) => {
    const element = Object.assign(document.createElement(tag), settings);
    element.append(...children);
    return element;
  };
  const button = make("button", { type: "button", id: "play", textContent: "Play" });
  button.setAttribute("aria-keyshortcuts", "P");
  const tempo = make("input", { type: "range", id: "tempo", min: 40, max: 320, step: 1, value: data.tempo });
  const tempoSaid = make("output", { id: "tempo-said" });
  const from = make("input", { type: "number", id: "from-bar", min: firstBar, max: lastBar, value: firstBar });
  const to = make("input", { type: "number", id: "to-bar", min: firstBar, max: lastBar, value: lastBar });
  const loop = make("input", { type: "checkbox", id: "loop" });
  const swing = make("input", { type: "checkbox", id: "swing", checked: data.swing });
  const harmony = make("input", { type: "checkbox", id: "harmony", checked: true });
  const volume = make("input", { type: "range", id: "volume", min: 0, max: 100, step: 1, value: 15 });
  const labelled = (text, ...controls) => make("label", {}, `${text} `, ...controls);
  host.replaceChildren(
    make("h3", { textContent: "Listen" }),
    make("div", { className: "player" }, button, labelled("Tempo", tempo, " ", tempoSaid), labelled("Bars", from),
      labelled("to", to), labelled("Again and again", loop), labelled("Swing eighths", swing),
      labelled("Chords", harmony), labelled("Volume", volume)),
    make("p", { textContent: "The key P plays and stops. It starts quiet: turn it up slowly, above all with headphones, " +
      "and no further than is comfortable. Your ears know best." }),
  );

  const sayTempo = () => {
    tempoSaid.textContent = `${tempo.value} quarters a minute`;
  };
  sayTempo();

  // An eighth in the middle of a beat comes late when it swings; anything finer stays where it is.
  const late = 0.62;
  const felt = (position) => {
    const beat = Math.floor(position);
    return swing.checked && Math.abs(position - beat - 0.5) < 1e-3 ? beat + late : position;
  };
  const frequency = (midi) => 440 * 2 ** ((midi - 69) / 12);
  const wholeNumber = (input) => Math.min(lastBar, Math.max(firstBar, Math.round(Number(input.value)) || 0));
  const barNumbered = (number) => bars.find((bar) => bar[0] === number) || bars[0];

  let context = null;
  let master = null;
  let running = null; // { start, begin, end, next, queue, shown }

  // The events of one pass, by time.
  const passOf = (begin, end) => {
    const events = [];
    notes.forEach(([onset, duration, midi], index) => {
      if (onset < begin || onset >= end) return;
      const at = felt(onset);
      const length = duration > 0 ? Math.max(0.08, felt(onset + duration) - at) : 0.1;
      events.push({ at, length, index, midi });
    });
    chords.forEach(([, onset, duration, tones, bass], index) => {
      if (onset + duration <= begin || onset >= end) return;
      const at = Math.max(onset, begin);
      events.push({ at, length: Math.min(onset + duration, end) - at, chord: index, tones, bass });
    });
    return events.sort((a, b) => a.at - b.at);
  };

  const voice = (type, midi, when, seconds, loudness, attack) => {
    const tone = new OscillatorNode(context, { type, frequency: frequency(midi) });
    const level = new GainNode(context, { gain: 0 });
    const stop = when + Math.max(seconds, attack + 0.03);
    level.gain.setValueAtTime(0, when);
    level.gain.linearRampToValueAtTime(loudness, when + attack);
    level.gain.setTargetAtTime(loudness * 0.7, when + attack, 0.15);
    level.gain.setTargetAtTime(0, stop - 0.03, 0.02);
    tone.connect(level).connect(master);
    tone.start(when);
    tone.stop(stop + 0.15);
    running.voices.add(tone);
    tone.addEventListener("ended", () => running && running.voices.delete(tone));
  };
  // Close position from the G below middle C, the bass two octaves under it.
  const soundChord = (event, when, seconds) => {
    const low = 55;
    for (const tone of event.tones) voice("sine", low + ((tone - low) % 12 + 12) % 12, when, seconds, 0.09, 0.04);
    const bass = 36;
    voice("triangle", bass + ((event.bass - bass) % 12 + 12) % 12, when, seconds, 0.2, 0.02);
  };

  const seconds = (quarters) => (quarters * 60) / Number(tempo.value);
  const light = (kind, index) => {
    const shown = running ? running.lit : {};
    if (shown[kind] !== undefined) document.getElementById(shown[kind])?.classList.remove("lit");
    if (index === undefined) return;
    const element = document.getElementById(`${kind}${index}`);
    shown[kind] = `${kind}${index}`;
    if (!element) return;
    element.classList.add("lit");
    if (kind === "n" && !calm.matches) keepInView(element);
  };
  const keepInView = (element) => {
    const system = element.closest(".system");
    if (running.system === system) return;
    running.system = system;
    system.scrollIntoView({ block: "nearest" });
  };

  // Sounds what begins within the next moment, and lights what sounds now.
  const ahead = 0.15;
  const tick = () => {
    if (!running) return;
    const now = context.currentTime;
    while (running.queue.length && running.start + seconds(running.queue[0].at - running.begin) < now + ahead) {
      const event = running.queue.shift();
      const when = Math.max(now, running.start + seconds(event.at - running.begin));
      const length = seconds(event.length);
      if (event.midi !== undefined) voice("triangle", event.midi, when, length * 0.95, 0.5, 0.012);
      else if (harmony.checked) soundChord(event, when, length);
      running.shown.push({ when, kind: event.midi === undefined ? "c" : "n", index: event.index ?? event.chord });
    }
    while (running.shown.length && running.shown[0].when <= now) {
      const { kind, index } = running.shown.shift();
      light(kind, index);
    }
    const end = running.start + seconds(running.end - running.begin);
    if (running.queue.length || now < end) return;
    if (loop.checked) beginPass(end);
    else stop();
  };
  const beginPass = (start) => {
    const first = wholeNumber(from);
    const last = Math.max(first, wholeNumber(to));
    const begin = barNumbered(first)[1];
    const [, onset, length] = barNumbered(last);
    Object.assign(running, { start, begin, end: onset + length, queue: passOf(begin, onset + length), shown: [] });
  };
  const stop = () => {
    if (!running) return;
    light("n");
    light("c");
    for (const tone of running.voices) tone.stop();
    clearInterval(running.timer);
    running = null;
    button.textContent = "Play";
    button.setAttribute("aria-pressed", "false");
  };
  const play = async () => {
    if (!context) {
      context = new Audio();
      master = new GainNode(context, { gain: 0 });
      master.connect(new DynamicsCompressorNode(context)).connect(context.destination);
    }
    await context.resume();
    master.gain.value = (Number(volume.value) / 100) ** 2 * 4;
    running = { voices: new Set(), lit: {}, system: null, timer: setInterval(tick, 25) };
    beginPass(context.currentTime + 0.1);
    button.textContent = "Stop";
    button.setAttribute("aria-pressed", "true");
  };
  const toggle = () => (running ? stop() : play());

  button.addEventListener("click", toggle);
  document.addEventListener("keydown", (event) => {
    const typing = event.target.closest && event.target.closest("input[type=number], textarea, select");
    if (typing || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "p" || event.key === "P") toggle();
    if (event.key === "Escape") stop();
  });
  // The tempo may change under way: the place in the line stays.
  let speed = Number(tempo.value);
  tempo.addEventListener("input", () => {
    sayTempo();
    if (running) {
      const done = ((context.currentTime - running.start) * speed) / 60;
      running.start = context.currentTime - seconds(done);
    }
    speed = Number(tempo.value);
  });
  volume.addEventListener("input", () => {
    if (master) master.gain.setTargetAtTime((Number(volume.value) / 100) ** 2 * 4, context.currentTime, 0.05);
  });
})();
