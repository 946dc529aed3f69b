// How a notation program writes down the MIDI files of its own quantizing tests, against how we do: the onsets of
// every file that both read as one line. Its reference files are XML; only what carries rhythm is read from them.
//
//   node compare_with_public_midi.cjs LIST_MIDI FOLDER LEAST-SHARE
const { execFileSync } = require("child_process");
const fs = require("fs");
const path = require("path");

const [listMidi, folder, leastShare] = process.argv.slice(2);

const find = (where) => fs.readdirSync(where, { withFileTypes: true }).flatMap((entry) =>
  entry.isDirectory() ? find(path.join(where, entry.name)) : [path.join(where, entry.name)]);

const values = { whole: 4, half: 2, quarter: 1, eighth: 1 / 2, "16th": 1 / 4, "32nd": 1 / 8, "64th": 1 / 16, "128th": 1 / 32 };
const inner = (text, tag) => (text.match(new RegExp(`<${tag}>([^<]*)</${tag}>`)) || [])[1];
const pitches = (chord) => [...chord.matchAll(/<pitch>(\d+)<\/pitch>/g)].map((match) => Number(match[1]));

/// [[pitch, onset in quarters], ...] of the only voice of the only staff; null where there are more.
function referenceLine(xml) {
  const staffs = [...xml.slice(xml.indexOf("</Part>")).matchAll(/<Staff id="\d+">([\s\S]*?)<\/Staff>/g)];
  if (staffs.length !== 1) return null;
  const notes = [];
  let barOnset = 0;
  let meter = 4;
  for (const [, measure] of staffs[0][1].matchAll(/<Measure[^>]*>([\s\S]*?)<\/Measure>/g)) {
    const voices = [...measure.matchAll(/<voice>([\s\S]*?)<\/voice>/g)];
    if (voices.slice(1).some(([, voice]) => voice.includes("<Chord>"))) return null;
    let onset = barOnset;
    const tuplets = [];
    const token = /<TimeSig>[\s\S]*?<\/TimeSig>|<Tuplet>[\s\S]*?<\/Tuplet>|<endTuplet\/>|<Chord>[\s\S]*?<\/Chord>|<Rest>[\s\S]*?<\/Rest>/g;
    for (const [text] of (voices.length ? voices[0][1] : "").matchAll(token)) {
      if (text.startsWith("<TimeSig>")) meter = (4 * Number(inner(text, "sigN"))) / Number(inner(text, "sigD"));
      else if (text.startsWith("<Tuplet>")) tuplets.push(Number(inner(text, "normalNotes")) / Number(inner(text, "actualNotes")));
      else if (text.startsWith("<endTuplet")) tuplets.pop();
      else {
        const dots = Number(inner(text, "dots") || 0);
        const value = inner(text, "durationType") === "measure" ? meter : values[inner(text, "durationType")];
        const tiedOn = /<prev>/.test(text);
        if (text.startsWith("<Chord>") && !tiedOn) notes.push([Math.max(...pitches(text)), onset]);
        onset += value * (2 - 0.5 ** dots) * tuplets.reduce((product, share) => product * share, 1);
      }
    }
    barOnset += meter;
  }
  return notes;
}

const number = (fraction) => fraction.split("/").map(Number).reduce((a, b) => a / b);
const midis = find(folder).filter((file) => file.endsWith(".mid")).sort();
const output = execFileSync(listMidi, ["--solo", ...midis], { encoding: "utf8" }).trim().split("\n").map(JSON.parse);
let compared = 0;
let same = 0;
let refused = 0;
for (const ours of output) {
  if (ours.refused) {
    refused += 1;
    if (!/percussion only|SMPTE|no notes/.test(ours.refused)) {
      console.log(`refused without a good reason: ${ours.refused}`);
      process.exit(1);
    }
    continue;
  }
  const theirs = referenceLine(fs.readFileSync(ours.file.replace(/\.mid$/, ".mscx"), "utf8"));
  if (!theirs || theirs.length !== ours.notes.length) continue;
  compared += theirs.length;
  const wrong = theirs.filter(([pitch, onset], i) => pitch !== ours.notes[i][0] || Math.abs(onset - number(ours.notes[i][1])) > 1e-6);
  same += theirs.length - wrong.length;
  if (wrong.length) console.log(`${path.basename(ours.file)}: theirs ${theirs.map((n) => n[1].toFixed(3)).join(" ")}; ours ${ours.notes.map((n) => n[1]).join(" ")}`);
}
console.log(`${midis.length} files, ${refused} refused; ${same} of ${compared} onsets are written alike`);
process.exit(midis.length >= 90 && compared >= 200 && same >= leastShare * compared ? 0 : 1);
