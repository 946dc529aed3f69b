// A sheet for every instrument, as a general engraver hears it and as its player reads it.
//
//   node every_instrument.mjs PROGRAM CHANGES FOLDER
//
// For each instrument that the program knows, a practice sheet is written into FOLDER in that instrument's pitch. The
// engraver must hear from its <transpose> the notes that the program hears, and the names that `--for` gives them must
// be the notes on the page; the same sheet in concert pitch must sound the same.
import { execFileSync, spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import createVerovioModule from "verovio/wasm";
import { VerovioToolkit } from "verovio/esm";

const [program, changes, folder] = process.argv.slice(2);
fs.mkdirSync(folder, { recursive: true });
const toolkit = new VerovioToolkit(await createVerovioModule());
toolkit.setOptions({ transposeToSoundingPitch: true });
const run = (...options) => execFileSync(program, options, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] });

function heard(file) {
  if (!toolkit.loadData(fs.readFileSync(file, "utf8"))) throw new Error(`${file}: the engraver cannot read it`);
  return toolkit.renderToTimemap({}).flatMap(({ on = [] }) => on.map((id) => toolkit.getMIDIValuesForElement(id).pitch));
}

const semitones = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const midiOf = (step, alter, octave) => 12 * (Number(octave) + 1) + semitones[step] + Number(alter);
function printed(file) {
  const pitch = /<pitch>\s*<step>(\w)<\/step>\s*(?:<alter>(-?\d+)<\/alter>\s*)?<octave>(-?\d+)<\/octave>/g;
  return [...fs.readFileSync(file, "utf8").matchAll(pitch)].map(([, step, alter = 0, octave]) => midiOf(step, alter, octave));
}

function read(file, instrument) {
  const [head, ...rows] = run("analyze", file, "--for", instrument, "--csv", "-").trim().split(/\r?\n/);
  const columns = head.split(",");
  const column = (row, name) => row.split(",")[columns.indexOf(name)];
  const named = (text) => {
    const [, step, signs, octave] = /^(\w)([b#]*)(-?\d+)$/.exec(text);
    return midiOf(step, signs.startsWith("b") ? -signs.length : signs.length, octave);
  };
  return {
    sounding: rows.map((row) => Number(column(row, "midi"))),
    names: rows.map((row) => named(column(row, "name"))),
  };
}

const complaint = spawnSync(program, ["analyze", changes, "--for", "kazoo"], { encoding: "utf8" }).stderr;
const instruments = /known are: (.*)/.exec(complaint)[1].split(", ");
let failures = 0;
function same(what, one, other) {
  if (one.length > 0 && String(one) === String(other)) return;
  failures += 1;
  console.log(`FAILED: ${what}\n  ${one}\n  ${other}`);
}

for (const instrument of instruments) {
  const written = path.join(folder, `${instrument}.musicxml`);
  const concert = path.join(folder, `${instrument}-concert.musicxml`);
  const drill = ["drill", "--changes", changes, "--arpeggios", "up", "--range", instrument];  // no notes in brackets
  run(...drill, "--written", "-o", written);
  run(...drill, "-o", concert);
  const notes = heard(written);
  const { sounding, names } = read(written, instrument);
  same(`${instrument}: written and concert sheet sound the same`, notes, heard(concert));
  same(`${instrument}: what the engraver hears is what the program hears`, notes, sounding);
  same(`${instrument}: the names are the notes on the page`, names, printed(written));
}
console.log(`${instruments.length} instruments`);
process.exit(failures === 0 && instruments.length >= 20 ? 0 : 1);
