// comparison_schema_test.cjs SCHEMA PROGRAM CORPUS
//
// Every comparison file must be valid: of each demo piece with the first, of all of them, of two takes, of choruses, of
// sections. Then files spoilt on purpose must be refused, so that a schema which accepts anything does not pass.
const { execFileSync } = require("node:child_process");
const fs = require("node:fs");
const path = require("node:path");
const { schemaTest } = require("./schema_support.cjs");

const [schemaFile, program, corpus] = process.argv.slice(2);
const { fail, accepts, refuses, end } = schemaTest(schemaFile);

function compared(...options) {
  const output = { encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "pipe"] };
  return JSON.parse(execFileSync(program, ["compare", ...options, "--resamples", "100", "--json", "-"], output));
}

const pieces = fs.readdirSync(corpus).filter((name) => name.endsWith(".musicxml")).sort()
  .map((name) => path.join(corpus, name));
if (pieces.length < 8) fail(`only ${pieces.length} demo pieces found`);
const street = path.join(corpus, "lantern-street.musicxml");
const files = new Map(pieces.slice(1).map((piece) => [piece, compared(pieces[0], piece)]));
files.set("all pieces", compared(...pieces));
files.set("two takes", compared(pieces[0], pieces[1], "--before-after"));
files.set("choruses", compared(street, "--choruses"));
files.set("sections", compared(street, "--sections"));

accepts(files);

const spoilt = {
  "a field too many": (file) => { file.figures[0].colour = "blue"; },
  "a field too few": (file) => { delete file.figures[0].values[0].part; },
  "an unknown verdict": (file) => { file.figures[0].against_first[0].verdict = "better"; },
  "an interval with one end": (file) => { file.figures[0].against_first[0].interval = [0.1]; },
  "an unknown unit": (file) => { file.figures[0].unit = "percent"; },
  "a single solo": (file) => { file.solos.length = 1; },
  "another version": (file) => { file.version += 1; },
};
refuses(files.get("choruses"), spoilt);
end(`${files.size} comparison files and ${Object.keys(spoilt).length} spoilt ones checked`);
