// same_as_program.cjs TREE MODULE_FOLDER PROGRAM [SCORES_FOLDER]
//
// The module in Node says and writes the same as the program, byte for byte: for all pieces, damaged ones, refusals and golden
// cases; where SCORES_FOLDER is named, for every score under it instead.
"use strict";

const fs = require("node:fs");
const path = require("node:path");

const [tree, moduleFolder, program, scores] = process.argv.slice(2);
const { analyses, damaged, goldenCases, isScore, seen, tortures } = require(path.join(tree, "tests/browser/cases.cjs"));
const { loadNative } = require(path.join(tree, "tests/browser/stand_in.cjs"));
const { loadTool } = require(path.join(tree, "browser/tool.js"));

const wasm = path.join(moduleFolder, "insideline.wasm");
if (!fs.existsSync(wasm)) {
  console.log("skipped: the module for browsers is not built; scripts/browser builds it");
  process.exit(0);
}

function casesUnder(folder) {
  return fs.readdirSync(folder, { recursive: true }).filter((name) => isScore(String(name))).sort().map((name) => {
    const plain = path.basename(name);
    return { name, args: ["analyze", plain, "--json", "-"], files: { [plain]: new Uint8Array(fs.readFileSync(path.join(folder, name))) } };
  });
}

async function compare() {
  const tool = await loadTool(fs.readFileSync(wasm), require(path.join(moduleFolder, "insideline.js")));
  const native = loadNative(program);
  const pieces = analyses(tree, ["corpus-demo", "tests/io/data", "tests/io/data/abc", "tests/cli/data"]);
  const cases = scores ? casesUnder(scores) : [...pieces, ...damaged(pieces), ...tortures(tree), ...goldenCases(tree)];
  const counts = [0, 0, 0];
  let failures = 0;
  for (const { name, args, files } of cases) {
    const expected = native.run(args, files);
    const found = tool.run(args, files);
    counts[expected.status] += 1;
    if (seen(found) === seen(expected)) continue;
    failures += 1;
    console.error(`FAILED: ${name}: insideline ${args.join(" ")}`);
    console.error(`  program: ${expected.status} ${expected.err.slice(0, 300)}\n  module:  ${found.status} ${found.err.slice(0, 300)}`);
    for (const file of Object.keys(expected.files))
      if (seen({ files: { file: found.files[file] ?? "" } }) !== seen({ files: { file: expected.files[file] } })) console.error(`  ${file} differs`);
    if (found.out !== expected.out) console.error("  standard output differs");
  }
  console.log(`${cases.length} runs compared (${counts[0]} done, ${counts[1]} inputs and ${counts[2]} command lines refused), ${failures} differ`);
  if (cases.length < 50 && !scores) throw new Error("too few cases were found");
  process.exit(failures === 0 && cases.length > 0 ? 0 : 1);
}
compare();
