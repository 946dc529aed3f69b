// The sounds of the page, by oscillators alone: the line, its chords and a click, each with a level of its own. The
// same on a loudspeaker and into samples: nothing here delays a sound or asks what time it is.
"use strict";
insideline.sound = (context) => {
  const frequency = (midi) => 440 * 2 ** ((midi - 69) / 12);
  // However much is added up, it never exceeds full scale; unlike a compressor this takes no time.
  const rounded = Float32Array.from({ length: 2049 }, (unused, i) => Math.tanh((i - 1024) / 512) * 0.98);
  const master = new GainNode(context, { gain: 0 });
  const guard = new WaveShaperNode(context, { curve: rounded });
  const half = new GainNode(context, { gain: 0.5 }); // the curve reaches to twice full scale
  master.connect(half).connect(guard).connect(context.destination);
  const channels = Object.fromEntries(["line", "chords", "click"].map((name) => {
    const channel = new GainNode(context, { gain: 1 });
    channel.connect(master);
    return [name, channel];
  }));
  const voices = new Set();

  const voice = (channel, type, hertz, when, seconds, loudness, attack) => {
    const tone = new OscillatorNode(context, { type, frequency: hertz });
    const level = new GainNode(context, { gain: 0 });
    const stop = when + Math.max(seconds, attack + 0.03);
    level.gain.setValueAtTime(0, when);
    level.gain.linearRampToValueAtTime(loudness, when + attack);
    level.gain.setTargetAtTime(loudness * 0.7, when + attack, 0.15);
    level.gain.setTargetAtTime(0, stop - 0.03, 0.012);
    tone.connect(level).connect(channels[channel]);
    tone.start(when);
    tone.stop(stop + 0.1);
    const one = { tone, level, when };
    voices.add(one);
    tone.addEventListener("ended", () => voices.delete(one));
  };
  const above = (low, tone) => low + (((tone - low) % 12) + 12) % 12;

  return {
    // `event` as the schedule has it, with its time `when` on the clock of the context.
    play({ kind, midi, tones, bass, accent, seconds }, when) {
      if (kind === "note") voice("line", "triangle", frequency(midi), when, seconds, 0.5, 0.012);
      if (kind === "click") voice("click", "triangle", accent ? 1760 : 1175, when, seconds, accent ? 0.5 : 0.32, 0.002);
      if (kind !== "chord") return;
      // Close position from the G below middle C, the bass two octaves under it.
      for (const tone of tones) voice("chords", "sine", frequency(above(55, tone)), when, seconds, 0.09, 0.04);
      voice("chords", "triangle", frequency(above(36, bass)), when, seconds, 0.2, 0.02);
    },
    // 0 to 1, as a slider gives it.
    level(channel, share) {
      const gain = channel === "master" ? master.gain : channels[channel].gain;
      const value = channel === "master" ? share ** 2 * 4 : share ** 2;
      gain.setTargetAtTime(value, context.currentTime, 0.02);
    },
    // Takes back what has not begun by `time`.
    forget(time) {
      for (const one of voices) {
        if (one.when < time) continue;
        one.tone.stop(0);
        voices.delete(one);
      }
    },
    silence() {
      const now = context.currentTime;
      for (const { tone, level, when } of voices) {
        level.gain.cancelScheduledValues(now);
        level.gain.setTargetAtTime(0, now, 0.012);
        tone.stop(when > now ? 0 : now + 0.1);
      }
      voices.clear();
    },
  };
};
