// assessment_schema_test.cjs SCHEMA PROGRAM CORPUS DATA
//
// What `insideline assess --json` writes must be valid: of a played take with mistakes, of a sheet read as its own take, of
// a take that breaks off. Then files spoilt on purpose must be refused, so that a schema which accepts anything does not
// pass.
const { execFileSync } = require("node:child_process");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { schemaTest } = require("./schema_support.cjs");

const [schemaFile, program, corpus, data] = process.argv.slice(2);
const { fail, accepts, refuses, end } = schemaTest(schemaFile);

const folder = fs.mkdtempSync(path.join(os.tmpdir(), "assessment-"));
const run = (...options) =>
  execFileSync(program, options, { cwd: folder, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
const judged = (take, sheet, ...options) =>
  JSON.parse(run("assess", take, "--against", sheet, "--json", "-", ...options));
const files = new Map();
try {
  const chart = path.join(corpus, "lantern-street.changes");
  run("drill", "--changes", chart, "--arpeggios", "down", "--range", "F3-C6", "-o", "sheet.musicxml");
  run("drill", "--changes", chart, "--arpeggios", "down", "--range", "F3-C6", "-o", "sheet.mid");
  files.set("a played take", judged(path.join(data, "descents_take.mid"), "sheet.musicxml"));
  files.set("the sheet itself", judged("sheet.musicxml", "sheet.musicxml"));
  files.set("the sheet as MIDI", judged("sheet.mid", "sheet.musicxml", "--one-mistake-in", "20"));
} finally {
  fs.rmSync(folder, { recursive: true });
}

accepts(files);
const played = files.get("a played take");
if (played.mistakes.length === 0) fail("the played take has no mistakes");
const wrong = played.notes.wrong + played.notes.octave_slips + played.notes.missing + played.added;
if (played.mistakes.length !== wrong) fail(`${wrong} notes are not as written, ${played.mistakes.length} are listed`);
const bars = played.by_bar.reduce((sum, bar) => sum + bar.right.of, 0);
if (bars !== played.notes.right.of) fail("the bars do not add up to all notes");
if (played.by_bar_of_section.length !== 0) fail("sections that come once have bars of each");
if (files.get("the sheet itself").tempo !== null) fail("a score has a tempo that was played");
if (files.get("the sheet as MIDI").method.one_mistake_in !== 20) fail("the bound is not the one asked for");

const spoilt = {
  "a field too many": (file) => { file.verdict.colour = "blue"; },
  "a field too few": (file) => { delete file.coverage.silent; },
  "an unknown verdict": (file) => { file.verdict.readiness = "splendid"; },
  "a pitch that is none": (file) => { file.mistakes[0].wanted = "H4"; },
  "a beat in words": (file) => { file.mistakes[0].beat = "two"; },
  "notes below none": (file) => { file.by_chord[0].right.count = -1; },
  "a tempo without a course": (file) => { delete file.tempo.course; },
  "an unknown break": (file) => { file.interruptions.push({ how: "fell asleep", bar: "1", on_in: "2", quarters: 0 }); },
  "another version": (file) => { file.version += 1; },
};
refuses(played, spoilt);
end(`${files.size} assessment files and ${Object.keys(spoilt).length} spoilt ones checked`);
