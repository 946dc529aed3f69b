// comparison_schema_test.cjs SCHEMA PROGRAM CORPUS
//
// Every comparison file must be valid: of each demo piece with the first, of all of them, of two takes, of choruses, of
// sections. Then files spoilt on purpose must be refused, so that a schema which accepts anything does not pass.
const { execFileSync } = require("node:child_process");
const fs = require("node:fs");
const path = require("node:path");
const Ajv2020 = require("ajv/dist/2020").default;

const [schemaFile, program, corpus] = process.argv.slice(2);
const schema = JSON.parse(fs.readFileSync(schemaFile, "utf8"));
const validate = new Ajv2020({ strict: true, allowUnionTypes: true, allErrors: true }).compile(schema);
let failures = 0;

function fail(message) {
  failures += 1;
  console.error(message);
}

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

for (const [name, file] of files) {
  if (validate(file)) continue;
  for (const error of validate.errors.slice(0, 5)) fail(`${name}: ${error.instancePath} ${error.message}`);
}

const spoilt = {
  "a field too many": (file) => { file.figures[0].colour = "blue"; },
  "a field too few": (file) => { delete file.figures[0].values[0].part; },
  "an unknown verdict": (file) => { file.figures[0].against_first[0].verdict = "better"; },
  "an interval with one end": (file) => { file.figures[0].against_first[0].interval = [0.1]; },
  "an unknown unit": (file) => { file.figures[0].unit = "percent"; },
  "a single solo": (file) => { file.solos.length = 1; },
  "another version": (file) => { file.version += 1; },
};
const sound = JSON.stringify(files.get("choruses"));
for (const [what, spoil] of Object.entries(spoilt)) {
  const file = JSON.parse(sound);
  spoil(file);
  if (validate(file)) fail(`the schema accepts ${what}`);
}

console.log(`${files.size} comparison files and ${Object.keys(spoilt).length} spoilt ones checked`);
process.exit(failures === 0 ? 0 : 1);
