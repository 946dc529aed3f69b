// A practice sheet through all keys, as two other readers see it: the key signatures of the score, and that the pitches of
// score and MIDI file agree, each key's line being the first one's moved or within the range.
//
//   node check_all_keys.mjs FOLDER
//
// FOLDER holds all-keys.musicxml and all-keys.mid of one sheet, which has the same line in every key.
import fs from "node:fs";
import path from "node:path";
import tone from "@tonejs/midi";
import createVerovioModule from "verovio/wasm";
import { VerovioToolkit } from "verovio/esm";

const [folder] = process.argv.slice(2);
const failures = [];
const expect = (condition, message) => { if (!condition) failures.push(message); };

const toolkit = new VerovioToolkit(await createVerovioModule());
const loaded = toolkit.loadData(fs.readFileSync(path.join(folder, "all-keys.musicxml"), "utf8"));
expect(loaded, "verovio does not read the score");

// "3f" is three flats. Round the fourths from Eb.
const expected = ["3f", "4f", "5f", "6f", "5s", "4s", "3s", "2s", "1s", "0", "1f", "2f"];
const mei = toolkit.getMEI({});
const signatures = [...mei.matchAll(/<(?:keySig|scoreDef|staffDef)\b[^>]*?\b(?:sig|keysig|key\.sig)="([^"]*)"/g)].map((match) => match[1]);
const changes = signatures.filter((signature, index) => index === 0 || signature !== signatures[index - 1]);
expect(JSON.stringify(changes) === JSON.stringify(expected), `signatures ${changes} instead of ${expected}`);
const double = [...mei.matchAll(/\bright="dbl"/g)].length;
expect(double === 11, `${double} double bars instead of 11`);

const inScore = toolkit.renderToTimemap({ includeRests: false }).flatMap((event) => event.on ?? [])
  .filter((id) => !new RegExp(`<note\\b[^>]*xml:id="${id}"[^>]*cue="true"`).test(mei))
  .map((id) => toolkit.getMIDIValuesForElement(id).pitch);
const midi = new tone.Midi(fs.readFileSync(path.join(folder, "all-keys.mid")));
const line = midi.tracks.find((track) => track.notes.length > 0).notes.map((note) => note.midi);
expect(line.length > 0 && line.length % 12 === 0, `${line.length} notes in the MIDI file`);
expect(JSON.stringify(inScore) === JSON.stringify(line), "score and MIDI file differ in their pitches");
expect(midi.header.keySignatures.length === 12, `${midi.header.keySignatures.length} key signatures in the MIDI file`);

const once = line.length / 12;
for (let key = 1; key < 12; ++key) {
  const shift = line[key * once] - line[0];
  expect((shift - 5 * key) % 12 === 0, `key ${key + 1} is moved by ${shift}`);
  for (let note = 0; note < once; ++note)
    expect(line[key * once + note] - line[note] === shift, `key ${key + 1}, note ${note + 1} is not the first key's, moved`);
}

for (const failure of failures.slice(0, 20)) console.error(failure);
console.log(`${line.length} notes in twelve keys, ${changes.length} signatures`);
process.exit(failures.length > 0 ? 1 : 0);
