// practice_log_schema_test.cjs SCHEMA PROGRAM CORPUS DATA
//
// What `insideline log --json` writes must be valid: of a class, of one player, of a name with quotes and line feeds. Then
// files spoilt on purpose must be refused, so that a schema which accepts anything does not pass.
const { execFileSync } = require("node:child_process");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { schemaTest } = require("./schema_support.cjs");

const [schemaFile, program, corpus, data] = process.argv.slice(2);
const { fail, accepts, refuses, end } = schemaTest(schemaFile);

const folder = fs.mkdtempSync(path.join(os.tmpdir(), "practice-log-"));
const run = (...options) =>
  execFileSync(program, options, { cwd: folder, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
const read = (...options) => JSON.parse(run("log", "class.log", "--json", "-", ...options));
const odd = "O'Brine \"Red\"\nthe second line\t=1+1";
const files = new Map();
try {
  run("drill", "--changes", path.join(corpus, "lantern-street.changes"), "--arpeggios", "down", "--range", "F3-C6",
    "-o", "sheet.musicxml");
  const assess = (take, player, day) =>
    run("assess", take, "--against", "sheet.musicxml", "--log", "class.log", "--player", player, "--day", day);
  assess(path.join(data, "descents_take.mid"), "Anke", "2026-11-20");
  assess("sheet.musicxml", "Anke", "2026-11-21");
  assess("sheet.musicxml", odd, "2026-11-22");
  files.set("the class", read());
  files.set("one player", read("--player", "Anke"));
  files.set("an odd name", read("--player", odd));
  files.set("two days", read("--from", "2026-11-21", "--to", "2026-11-22"));
} finally {
  fs.rmSync(folder, { recursive: true });
}

accepts(files);
if (files.get("the class").takes.length !== 3) fail("the class does not have three takes");
if (files.get("two days").takes.length !== 2) fail("two of the days do not have two takes");
if (files.get("an odd name").takes[0].player !== odd) fail("the odd name came back changed");

const spoilt = {
  "a field too many": (file) => { file.takes[0].colour = "blue"; },
  "a field too few": (file) => { delete file.takes[0].whole; },
  "an unknown verdict": (file) => { file.takes[0].verdict = "splendid"; },
  "an unknown advice": (file) => { file.sheets[0].next = "rest"; },
  "a tempo in words": (file) => { file.takes[0].tempo_bpm = "fast"; },
  "notes below none": (file) => { file.takes[0].right.count = -1; },
  "a jump in words": (file) => { file.takes[0].tempo_jumps = "one"; },
  "a log of nobody": (file) => { file.players.length = 0; },
  "another version": (file) => { file.version += 1; },
};
refuses(files.get("the class"), spoilt);
end(`${files.size} practice log files and ${Object.keys(spoilt).length} spoilt ones checked`);
