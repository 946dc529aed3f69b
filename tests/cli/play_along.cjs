// The play-along files of `drill`, read by a general MIDI library: tempos, clicks, chords and swing are where they were
// asked for. node play_along.cjs PROGRAM CORPUS FOLDER
const { execFileSync } = require("child_process");
const fs = require("fs");
const path = require("path");
const { Midi } = require("@tonejs/midi");

const [program, corpus, folder] = process.argv.slice(2);
fs.rmSync(folder, { recursive: true, force: true });
fs.mkdirSync(folder, { recursive: true });
let failures = 0;
const check = (what, found, expected) => {
  if (JSON.stringify(found) === JSON.stringify(expected)) return;
  console.error(`${what}: found ${JSON.stringify(found)}, expected ${JSON.stringify(expected)}`);
  ++failures;
};
const drill = (name, ...options) => {
  const changes = path.join(corpus, "lantern-street.changes");
  execFileSync(program, ["drill", "--changes", changes, "-o", path.join(folder, name), ...options], { stdio: "pipe" });
};
const read = (name) => new Midi(fs.readFileSync(path.join(folder, name)));
const track = (midi, name) => midi.tracks.find((one) => one.name === name);
const tempos = (midi) => midi.header.tempos.map((tempo) => Math.round(tempo.bpm));

const bars = 16;
drill("plain.mid");
const plain = read("plain.mid");
const line = plain.tracks.find((one) => one.name === "Practice line").notes;
check("tempo of a plain sheet", tempos(plain), [120]);
check("clicks before it", track(plain, "Count-in").notes.length, 4);
check("notes of the line", line.length, 128);
check("the line begins in bar 2", line[0].ticks, 4 * plain.header.ppq);

drill("ladder.mid", "--ladder", "together", "--click", "--count-in", "two");
const ladder = read("ladder.mid");
check("tempos of the ladder", tempos(ladder), [60, 72, 84, 96, 108, 120]);
check("clicks throughout", track(ladder, "Click").notes.length, 6 * 4 * (bars + 2));
check("six times through", track(ladder, "Practice line").notes.length, 6 * line.length);
check("where the tempos change", ladder.header.tempos.map((tempo) => tempo.ticks / ladder.header.ppq),
  [0, 1, 2, 3, 4, 5].map((time) => time * 4 * (bars + 2)));

drill("step.mid", "--ladder", "apart", "--count-in", "none", "--chords", "none");
const steps = fs.readdirSync(folder).filter((name) => name.startsWith("step")).sort();
check("a file a step", steps, ["step-108.mid", "step-120.mid", "step-60.mid", "step-72.mid", "step-84.mid", "step-96.mid"]);
for (const name of steps) {
  check(`tempo of ${name}`, tempos(read(name)), [Number(name.match(/\d+/)[0])]);
  check(`first note of ${name}`, track(read(name), "Practice line").notes[0].ticks, 0);
  check(`chords of ${name}`, track(read(name), "Chords"), undefined);
}

drill("swung.mid", "--swing", "1.5", "--chords", "comped");
const swung = read("swung.mid");
const parts = new Set(track(swung, "Practice line").notes.map((note) => note.ticks % swung.header.ppq));
check("where swung eighths lie in the beat", [...parts].sort((a, b) => a - b), [0, 0.6 * swung.header.ppq]);
const chords = track(swung, "Chords").notes;
check("the register of the chords", [Math.min(...chords.map((note) => note.midi)) >= 52,
  Math.max(...chords.map((note) => note.midi)) <= 76], [true, true]);
const bass = track(swung, "Bass").notes;
check("the bass lies below", Math.max(...bass.map((note) => note.midi)) < 48, true);
const struck = (ticks) => chords.filter((note) => note.ticks === ticks).length;
check("four voices at every stroke", [...new Set(chords.map((note) => struck(note.ticks)))], [4]);

if (failures > 0) process.exit(1);
console.log("read alike: one file, six files, the whole ladder, and one that swings");
