// What sounds when: the notes, chords and clicks of pass after pass, as exact times on the clock of the sound. Pure: no
// sound is made here, so that what is planned can be looked at.
"use strict";
window.insideline = window.insideline || {};
insideline.schedule = (() => {
  // An eighth in the middle of a beat comes late when it swings; anything finer stays where it is.
  const felt = (position, swing) => {
    const beat = Math.floor(position);
    return Math.abs(position - beat - 0.5) < 1e-3 ? beat + swing : position;
  };

  // A grace note takes its time from what goes before, as short as it is usually played.
  const graceSeconds = 0.075;

  // Notes of [begin, end), in seconds from its beginning; grace notes one after the other up to their note.
  const notesOf = (data, { begin, end }, perQuarter, swing) => {
    const events = [];
    let graces = [];
    let before = null;
    data.notes.forEach(([onset, duration, midi], index) => {
      if (onset < begin || onset >= end) return;
      const at = (felt(onset, swing) - begin) * perQuarter;
      if (duration <= 0) {
        graces.push({ kind: "note", midi, index, at, seconds: graceSeconds });
        return;
      }
      graces.forEach((grace, i) => { grace.at = at - (graces.length - i) * graceSeconds; });
      if (before && graces.length) before.seconds = Math.max(0.04, Math.min(before.seconds, graces[0].at - before.at));
      const length = Math.min(felt(onset + duration, swing), end) * perQuarter - (at + begin * perQuarter);
      before = { kind: "note", midi, index, at, seconds: Math.max(0.06, length * 0.95) };
      events.push(...graces, before);
      graces = [];
    });
    graces.forEach((grace, i) => { grace.at -= (graces.length - i) * graceSeconds; });
    return [...events, ...graces];
  };

  const chordsOf = (data, { begin, end }, perQuarter) => data.chords
    .map(([, onset, duration, tones, bass], index) => ({ onset, upTo: onset + duration, tones, bass, index }))
    .filter(({ onset, upTo }) => upTo > begin && onset < end)
    .map(({ onset, upTo, tones, bass, index }) => ({
      kind: "chord", tones, bass, index, at: (Math.max(onset, begin) - begin) * perQuarter,
      seconds: (Math.min(upTo, end) - Math.max(onset, begin)) * perQuarter,
    }));

  // Counted back from the bar line, so that a pickup is counted as it leads in.
  const beatsOf = ([, onset, length, beat]) => {
    const beats = [];
    for (let back = beat; back <= length + 1e-6; back += beat) beats.unshift(onset + length - back);
    return beats;
  };
  const clicksOf = (data, { begin, end }, perQuarter) => data.bars
    .filter(([, onset, length]) => onset + length > begin && onset < end)
    .flatMap((bar) => beatsOf(bar).map((onset) => ({
      kind: "click", accent: bar[0] > 0 && Math.abs(onset - bar[1]) < 1e-6, at: (onset - begin) * perQuarter, seconds: 0.03,
    })))
    .filter(({ at }) => at >= -1e-9 && at < (end - begin) * perQuarter - 1e-9);

  const tempoOf = ({ tempo, steps }, pass) => {
    if (!steps || !(steps.passes > 0) || !(steps.by > 0) || steps.top <= tempo) return tempo;
    return Math.min(steps.top, tempo + steps.by * Math.floor(pass / steps.passes));
  };

  // One pass of { begin, end } (quarter notes): its events by time, and how long it lasts.
  const pass = (data, settings, range, number = 0) => {
    const tempo = tempoOf(settings, number);
    const perQuarter = 60 / tempo;
    const events = [...notesOf(data, range, perQuarter, settings.swing), ...chordsOf(data, range, perQuarter),
      ...clicksOf(data, range, perQuarter)].sort((a, b) => a.at - b.at);
    return { events, tempo, seconds: (range.end - range.begin) * perQuarter };
  };

  // The clicks before the first pass, at negative times.
  const countIn = (data, settings, range) => {
    const bar = data.bars.find(([number, onset]) => number > 0 && onset >= range.begin - 1e-6) || data.bars[data.bars.length - 1];
    const perQuarter = 60 / settings.tempo;
    const beats = Math.round(bar[2] / bar[3]);
    const events = [];
    for (let i = -settings.countIn * beats; i < 0; i += 1)
      events.push({ kind: "click", count: true, accent: (i + settings.countIn * beats) % beats === 0, at: i * bar[3] * perQuarter, seconds: 0.03 });
    return { events, seconds: settings.countIn * beats * bar[3] * perQuarter };
  };

  // All passes one after the other, the first beginning at `start`. take(time) gives what begins before `time` and was not
  // yet taken; a pass is laid out before the one that sounds has ended, so that nothing waits at the seam.
  const timeline = (data, settings, range, start, firstPass = 0) => {
    const lead = 1; // grace notes of the first note sound before their pass
    const passes = [];
    let waiting = [];
    let next = start;
    const add = (events, from, number) => {
      waiting.push(...events.map((event) => ({ ...event, when: from + event.at, pass: number })));
      waiting.sort((a, b) => a.when - b.when);
    };
    const goesOn = () => settings.loop || passes.length === 0;
    const layOut = (time) => {
      while (next - lead < time && goesOn()) {
        const number = firstPass + passes.length;
        const { events, tempo, seconds } = pass(data, settings, range, number);
        add(events, next, number);
        passes.push({ start: next, number, tempo });
        next += seconds;
      }
    };
    if (settings.countIn > 0) add(countIn(data, settings, range).events, start, -1);
    return {
      take(time) {
        layOut(time);
        const due = waiting.filter((event) => event.when < time);
        waiting = waiting.slice(due.length);
        return due;
      },
      // Where the line is at `time`: { pass, quarters, tempo }.
      placeAt(time) {
        const current = [...passes].reverse().find((one) => one.start <= time) || passes[0];
        if (!current) return { pass: firstPass, quarters: range.begin, tempo: tempoOf(settings, firstPass) };
        const gone = Math.max(0, (time - current.start) * current.tempo / 60);
        return { pass: current.number, quarters: Math.min(range.end, range.begin + gone), tempo: current.tempo };
      },
      isOver: (time) => passes.length > 0 && !goesOn() && waiting.length === 0 && time >= next,
    };
  };
  return { pass, countIn, timeline, tempoOf };
})();
