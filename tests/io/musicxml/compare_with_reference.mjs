// Compares our note list with that of a general engraver, note for note: onset and pitch.
//
//   node compare_with_reference.mjs LIST_NOTES DIFFERENCES.json MINIMUM_EQUAL FOLDER...
//
// Each score is compared as written and as played, repeats and jumps taken. Only the part and the voice that we take as the solo are compared, chords reduced to their top note.
// DIFFERENCES.json names, for each score that differs, the clause that decides; a score that differs and is not
// there fails the test, and so does one that is there and no longer differs. A score is named by its file, or by its
// number and subject where the last part of the name says who wrote it.
import { execFileSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import createVerovioModule from "verovio/wasm";
import { VerovioToolkit } from "verovio/esm";

const [listNotes, differencesFile, minimumEqual, ...folders] = process.argv.slice(2);
const known = JSON.parse(fs.readFileSync(differencesFile, "utf8"));

function scoresIn(folder) {
  return fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const full = path.join(folder, entry.name);
    if (entry.isDirectory()) return scoresIn(full);
    return /\.(xml|musicxml|mxl)$/.test(entry.name) ? [full] : [];
  });
}

const numberOf = (fraction) => {
  const [top, bottom = "1"] = fraction.split("/");
  return Number(top) / Number(bottom);
};
// Fractions of a quarter in scores have small denominators; one 2^-20th tells them apart.
const ticks = (quarters) => Math.round(quarters * 1048576);

function ours(files, options) {
  const output = execFileSync(listNotes, options, {
    input: files.join("\n") + "\n", encoding: "utf8", maxBuffer: 1 << 28, timeout: 3600000,
  });
  return output.trim().split("\n").map((line) => JSON.parse(line));
}

// The reference's notes with the staff, layer and chord they stand in, from its own MEI; ends of ties are marked.
function placesInMei(mei) {
  const places = new Map();
  let staff = 0, layer = 0, graceGroups = 0, chord = null;
  for (const [, closing, name, attributes, empty] of mei.matchAll(/<(\/?)(staff|layer|note|chord|graceGrp)\b([^>]*?)(\/?)>/g)) {
    const id = /xml:id="([^"]*)"/.exec(attributes)?.[1];
    const number = Number(/\bn="(\d+)"/.exec(attributes)?.[1] ?? 0);
    const grace = /\bgrace="/.test(attributes);
    if (name === "graceGrp") graceGroups += closing ? -1 : empty ? 0 : 1;
    if (name === "chord") chord = closing ? null : { id, grace };
    if (closing) continue;
    if (name === "staff") staff = number;
    if (name === "layer") layer = number;
    if (name !== "note") continue;
    const cue = /\bcue="true"/.test(attributes);
    places.set(id, { staff, layer, chord: chord?.id ?? id, grace: grace || cue || graceGroups > 0 || Boolean(chord?.grace) });
  }
  for (const [, id] of mei.matchAll(/<tie\b[^>]*\bendid="#([^"]*)"/g)) if (places.has(id)) places.get(id).tied = true;
  return places;
}

function reference(toolkit, file, expand) {
  toolkit.setOptions({ expandAlways: expand, expandNever: !expand });
  const bytes = fs.readFileSync(file);
  const loaded = file.endsWith(".mxl")
    ? toolkit.loadZipDataBuffer(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length))
    : toolkit.loadData(bytes.toString(bytes[0] === 0xff ? "utf16le" : "utf8"));
  if (!loaded) return null;
  const places = placesInMei(toolkit.getMEI({}));
  const notes = [];
  for (const event of toolkit.renderToTimemap({ includeRests: false, useFractions: true }))
    for (const id of event.on ?? []) {
      // An id that is played again ends in "-rend2" and so on; its place is that of the first.
      const place = places.get(id) ?? places.get(id.replace(/-rend\d+$/, ""));
      if (!place || place.grace || place.tied) continue;
      const onset = event.qfrac[0] / event.qfrac[1];
      const chord = place.chord + (id.match(/-rend\d+$/) ?? "");
      notes.push({ ...place, chord, onset: ticks(onset), midi: toolkit.getMIDIValuesForElement(id).pitch });
    }
  return notes;
}

// Whether playing the score may differ from reading it through. Where nothing in it can make it do so, the reference
// is not asked twice.
function mayBeExpanded(file) {
  if (file.endsWith(".mxl")) return true;
  const bytes = fs.readFileSync(file);
  return /<(repeat|ending|sound|segno|coda|words)\b/.test(bytes.toString(bytes[0] === 0xff ? "utf16le" : "utf8"));
}

// The staves that our part stands on, found by the running number of its first note.
function stavesOf(file, element) {
  if (file.endsWith(".mxl")) return [1, 1];
  const bytes = fs.readFileSync(file);
  const text = bytes.toString(bytes[0] === 0xff ? "utf16le" : "utf8");
  let notes = 0, staff = 1;
  for (const part of text.split(/<part\b[^>-]*>/).slice(1)) {
    const staves = Math.max(1, ...[...part.matchAll(/<staves>\s*(\d+)/g)].map((found) => Number(found[1])));
    notes += [...part.matchAll(/<note\b/g)].length;
    if (element < notes) return [staff, staff + staves - 1];
    staff += staves;
  }
  return [1, 1];
}

// One note for each chord and for each onset: the highest, where the chord begins.
function topNotes(notes) {
  const chords = new Map();
  for (const { chord, onset, midi } of notes) {
    const known = chords.get(chord);
    chords.set(chord, known ? { onset: Math.min(onset, known.onset), midi: Math.max(midi, known.midi) } : { onset, midi });
  }
  const top = new Map();
  for (const { onset, midi } of chords.values()) top.set(onset, Math.max(midi, top.get(onset) ?? -1));
  return [...top].sort((a, b) => a[0] - b[0]).map(([onset, midi]) => `${onset}:${midi}`);
}

function difference(file, result, theirs) {
  const start = numberOf(result.start);
  const sounding = result.notes.filter(([, , , grace]) => !grace);
  const mine = sounding.map(([onset, , midi]) => `${ticks(numberOf(onset) - start)}:${midi}`);
  const [first, last] = stavesOf(file, result.notes[0][4]);
  const layers = new Map();
  for (const note of theirs) {
    if (note.staff < first || note.staff > last) continue;
    const key = `${note.staff}/${note.layer}`;
    layers.set(key, [...(layers.get(key) ?? []), note]);
  }
  let nearest = null;
  for (const notes of layers.values()) {
    const top = topNotes(notes);
    let i = 0;
    while (i < top.length && i < mine.length && top[i] === mine[i]) ++i;
    if (i === top.length && i === mine.length) return null;
    if (!nearest || i > nearest.i) nearest = { i, mine: mine[i], theirs: top[i], counts: [mine.length, top.length] };
  }
  const shown = (entry) => entry?.replace(/^(-?\d+)/, (onset) => Number(onset) / 1048576) ?? "nothing";
  if (!nearest) return "the reference has no notes there";
  return `note ${nearest.i}: ours ${shown(nearest.mine)}, theirs ${shown(nearest.theirs)}; notes ${nearest.counts.join(" and ")}`;
}

const toolkit = new VerovioToolkit(await createVerovioModule());
toolkit.setOptions({ inputFrom: "xml", transposeToSoundingPitch: true, xmlIdSeed: 1, breaks: "none", header: "none", footer: "none" });
console.error = console.warn = () => {};

const files = folders.filter((folder) => fs.existsSync(folder)).flatMap(scoresIn).sort();
if (files.length === 0) {
  console.log("skipped: 0 scores compared, as they could not be fetched");
  process.exit(0);
}
const written = ours(files, ["--as-written"]);
const played = ours(files, []);
const count = { files: files.length, refused: 0, equal: 0, listed: 0, unreadable: 0 };
const failures = [];
for (let i = 0; i < files.length; ++i) {
  const name = path.basename(files[i]);
  const isListed = known[name] ?? known[name.replace(/-[^-]*\.xml$/, "")];
  if (written[i].refused) {
    ++count.refused;
    if (!/: .{20}/.test(written[i].refused)) failures.push(`${name}: refused without a reason`);
    continue;
  }
  let told = null;
  try {
    const page = reference(toolkit, files[i], false);
    if (!page) {
      ++count.unreadable;
      continue;
    }
    told = difference(files[i], written[i], page);
    const asPlayed = () => (mayBeExpanded(files[i]) ? reference(toolkit, files[i], true) : page);
    const toldPlayed = told ?? (played[i].refused || difference(files[i], played[i], asPlayed()));
    if (!told && toldPlayed) told = `as played, ${toldPlayed}`;
  } catch (error) {
    told = `the reference fails: ${String(error).slice(0, 60)}`;
  }
  if (!told) ++count.equal;
  if (told && isListed) ++count.listed;
  if (told && !isListed) failures.push(`${name}: ${told}`);
  if (!told && isListed) failures.push(`${name}: is listed as different but is equal`);
}

console.log(`${count.files} scores: ${count.equal} equal note for note, as written and as played, ` +
  `${count.listed} differ as listed, ${count.refused} refused with a reason, ${count.unreadable} not read by the reference`);
for (const failure of failures) console.log(failure);
if (count.equal < Number(minimumEqual)) failures.push(`only ${count.equal} are equal`);
process.exit(failures.length === 0 ? 0 : 1);
