// A second opinion on MIDI files: a general reader must find the same notes, ticks and tempos in the files that are
// written from the demo pieces and in the valid probe files.
//
//   node compare_with_reference.cjs LIST_MIDI FOLDER CORPUS SEEDS
const { execFileSync } = require("child_process");
const fs = require("fs");
const path = require("path");
const { Midi } = require("@tonejs/midi");

const [listMidi, folder, corpus, seeds] = process.argv.slice(2);
// Valid files that the general reader can read: it knows no other chunks than tracks.
const valid = ["g01", "g02", "g03", "g04", "g10", "g11", "g12", "g13", "g14", "g16", "g17", "g28"];

const inFolder = (where, keep) => fs.readdirSync(where).filter(keep).sort().map((name) => path.join(where, name));
const scores = inFolder(corpus, (name) => name.endsWith(".musicxml"));
const probes = inFolder(seeds, (name) => valid.includes(name.slice(0, 3)));
const output = execFileSync(listMidi, [folder, ...scores, ...probes], { encoding: "utf8" });

const byTime = (a, b) => a[1] - b[1] || a[0] - b[0] || a[2] - b[2];
let files = 0;
let notes = 0;
let failures = 0;
const expectSame = (file, what, ours, theirs) => {
  if (JSON.stringify(ours) === JSON.stringify(theirs)) return;
  failures += 1;
  console.log(`${file}: ${what}: ours ${JSON.stringify(ours)}, the reference ${JSON.stringify(theirs)}`);
};

for (const line of output.trim().split("\n")) {
  const ours = JSON.parse(line);
  const midi = new Midi(fs.readFileSync(ours.file));
  const theirs = midi.tracks.flatMap((track) => track.notes.map((note) => [note.midi, note.ticks, note.durationTicks]));
  const mine = ours.voices.flatMap((voice) => voice.notes);
  expectSame(ours.file, "notes", mine.sort(byTime), theirs.sort(byTime));
  expectSame(ours.file, "ticks per quarter", ours.ppq, midi.header.ppq);
  const bpm = (tempos) => tempos.map(([ticks, value]) => [ticks, value.toFixed(3)]);
  expectSame(ours.file, "tempos", bpm(ours.tempos.map(([ticks, us]) => [ticks, 60e6 / us])),
    bpm(midi.header.tempos.map((tempo) => [tempo.ticks, tempo.bpm])));
  if (ours.scoreNotes > 0) expectSame(ours.file, "notes of the score", ours.scoreNotes, theirs.length);
  files += 1;
  notes += theirs.length;
}
if (files < 20 || notes < 900) {
  console.log(`only ${files} files with ${notes} notes were compared`);
  failures += 1;
}
console.log(`${files} files, ${notes} notes, ${failures} differences`);
process.exit(failures === 0 ? 0 : 1);
