// schema_test.cjs SCHEMA PROGRAM REPORTS_TESTS FOLDER...
//
// Every analysis file that the tests produce must be valid: one of each score in the FOLDERs, with the changes beside
// it where there are any, lines made at random, and the hand-made ones of the report tests. Then files spoilt on purpose
// must be refused, so that a schema which accepts anything does not pass.
const { execFileSync } = require("node:child_process");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { schemaTest } = require("./schema_support.cjs");

const [schemaFile, program, reportsTests, ...folders] = process.argv.slice(2);
const { fail, accepts, refuses, end } = schemaTest(schemaFile);

function analyzed(score) {
  const changes = score.replace(/\.[a-z]+$/, ".changes");
  const options = fs.existsSync(changes) ? ["--changes", changes] : [];
  try {
    const output = { encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "pipe"] };
    return JSON.parse(execFileSync(program, ["analyze", score, ...options, "--json", "-"], output));
  } catch (error) {
    if (error.status === 1) return null; // a score that cannot be used: other tests say which may be refused
    throw error;
  }
}

const scores = folders.flatMap((folder) =>
  fs.readdirSync(folder, { recursive: true })
    .filter((name) => /\.(musicxml|mxl)$/.test(name))
    .sort()
    .map((name) => path.join(folder, name)));
const analyses = new Map();
for (const score of scores) {
  const analysis = analyzed(score);
  if (analysis !== null) analyses.set(score, analysis);
}

/// Whole numbers below `most`, the same ones in each run.
function numbersFrom(seed) {
  let state = seed;
  return (most) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * most);
  };
}

/// A tune in ABC: a shape of `size` notes, each time a step higher, until `bars` bars of sixteenths are full.
function shapeThatMoves(size, bars, below) {
  const steps = ["C", "D", "E", "F", "G", "A", "B", "c", "d", "e", "f", "g", "a", "b", "c'", "d'", "e'", "f'"];
  const chords = ["C6", "Dm7", "G7(b9)", "Am7", "Fmaj7", "Bm7b5", "E7alt", "Gsus4"];
  const shape = Array.from({ length: size }, () => below(8));
  let tune = "X:1\nM:4/4\nL:1/16\nK:C\n";
  for (let i = 0; i < bars * 16; ++i) {
    if (i % 16 === 0) tune += `| "${chords[below(chords.length)]}" `;
    tune += `${steps[shape[i % size] + (Math.floor(i / size) % 10)]} `;
  }
  return `${tune}|]\n`;
}

const lines = fs.mkdtempSync(path.join(os.tmpdir(), "insideline-lines-"));
try {
  for (let size = 2; size <= 40; ++size) { // long shapes are as good as none
    const name = path.join(lines, `a shape of ${size} notes.abc`);
    fs.writeFileSync(name, shapeThatMoves(size, 5, numbersFrom(size)));
    const analysis = analyzed(name);
    if (analysis === null) fail(`${path.basename(name)} was refused`);
    else analyses.set(path.basename(name), analysis);
  }
} finally {
  fs.rmSync(lines, { recursive: true });
}
const shapes = [...analyses.values()].flatMap((analysis) => analysis.patterns.sequences.map((found) => found.notes));
if (Math.max(...shapes) < 16) fail(`the longest sequence among the lines has shapes of ${Math.max(...shapes)} notes`);

const samples = fs.mkdtempSync(path.join(os.tmpdir(), "insideline-samples-"));
try {
  const environment = { ...process.env, INSIDELINE_SAMPLES: samples };
  execFileSync(reportsTests, ["[samples]"], { env: environment, stdio: "ignore" });
  for (const name of fs.readdirSync(samples)) analyses.set(name, JSON.parse(fs.readFileSync(path.join(samples, name))));
} finally {
  fs.rmSync(samples, { recursive: true });
}

accepts(analyses);
const ofCorpus = [...analyses.keys()].filter((name) => name.startsWith(folders[0])).length;
if (ofCorpus < 8) fail(`only ${ofCorpus} of the demo pieces were analyzed`);

const spoilt = {
  "a field too many": (analysis) => { analysis.notes[0].colour = "blue"; },
  "a field too few": (analysis) => { delete analysis.notes[0].reason; },
  "an unknown role": (analysis) => { analysis.notes[0].role = "chord-tone"; },
  "an unknown figure": (analysis) => { analysis.notes[0].figure = "passing"; },
  "a decimal time": (analysis) => { analysis.notes[0].onset = "0.5"; },
  "a time that is a number": (analysis) => { analysis.chords[0].duration = 4; },
  "a share above one": (analysis) => { analysis.summary.chord_tone_share = 1.5; },
  "a missing summary figure": (analysis) => { delete analysis.summary.chance.p_value; },
  "an unknown kind of connection": (analysis) => { analysis.summary.connections_by_kind.jump = 1; },
  "another version": (analysis) => { analysis.version += 1; },
};
refuses([...analyses.values()][0], spoilt);
end(`${analyses.size} analysis files of ${scores.length} scores and ${Object.keys(spoilt).length} spoilt ones checked`);
