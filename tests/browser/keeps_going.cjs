// keeps_going.cjs TREE MODULE_FOLDER
//
// The module in Node over a long evening: a thousand analyses need no more memory than the first ones, a run leaves nothing for the
// next, and one that breaks down does no harm.
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const v8 = require("node:v8");
const vm = require("node:vm");

const [tree, moduleFolder] = process.argv.slice(2);
const { loadTool } = require(path.join(tree, "browser/tool.js"));
const wasm = path.join(moduleFolder, "insideline.wasm");
if (!fs.existsSync(wasm)) {
  console.log("skipped: the module for browsers is not built; scripts/browser builds it");
  process.exit(0);
}
const glue = require(path.join(moduleFolder, "insideline.js"));
const name = "chandlery-stairs.musicxml";
const files = { [name]: fs.readFileSync(path.join(tree, "corpus-demo", name), "utf8") };
const asJson = ["analyze", name, "--json", "-"];

let failures = 0;
function check(what, sound, found) {
  if (sound) return;
  failures += 1;
  console.error(`FAILED: ${what}: ${found}`);
}

async function manyAnalyses() {
  v8.setFlagsFromString("--expose-gc");
  const collect = vm.runInNewContext("gc");
  const heaps = new Set();
  let program;
  const watched = (module) => {
    program = module;
    return glue(module);
  };
  const tool = await loadTool(fs.readFileSync(wasm), watched);
  const held = [];
  const answers = new Set();
  for (let i = 0; i < 1000; ++i) {
    answers.add(tool.run(asJson, files).out);
    heaps.add(program.HEAPU8.length);
    await new Promise(setImmediate);  // as a page comes to rest between two runs
    if (i !== 99 && i !== 999) continue;
    program = undefined;
    collect();
    const { arrayBuffers, external, heapUsed } = process.memoryUsage();
    held.push(arrayBuffers + external + heapUsed);
  }
  check("each analysis says the same", answers.size === 1, answers.size);
  check("each needs the same heap", heaps.size === 1, [...heaps]);
  // Not yet collected may be a few instances of 17 MB; nine hundred that were held would be 15 GB.
  check("nothing is held from one to the next", held[1] < held[0] + 10 * 17e6, held);
  console.log(`1,000 analyses: a heap of ${[...heaps].map((bytes) => (bytes / 1e6).toFixed(1))} MB each; held after 100 and after 1,000: ` +
    held.map((bytes) => `${(bytes / 1e6).toFixed(1)} MB`).join(", "));
}

/// `unreachable` as the only instruction of a module: what a fault of ours ends in.
const trap = Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 116, 0, 0, 10, 5, 1, 3, 0, 0, 11);

async function breakDowns() {
  let breaks;
  const faulty = (module) => {
    const ready = glue(module);
    const callMain = module.callMain;
    module.callMain = (args) => {
      if (breaks) return breaks(module);
      return callMain(args);
    };
    return ready;
  };
  const tool = await loadTool(fs.readFileSync(wasm), faulty);
  const before = tool.run(asJson, files);
  check("an analysis is done", before.status === 0 && before.out.length > 1000, before.err);
  const faults = {
    "a trap": () => new WebAssembly.Instance(new WebAssembly.Module(trap)).exports.t(),
    "too deep a recursion": function deeper() { return deeper() + 1; },
    "a file half written": (module) => { module.FS.writeFile("half.json", "{"); throw new Error("ended"); },
  };
  for (const [what, fault] of Object.entries(faults)) {
    breaks = fault;
    const broken = tool.run(asJson, files);
    check(`${what} is told`, broken.status === 1 && broken.err.startsWith("insideline: error: the program broke down"), broken.err);
    check(`${what} leaves no file`, Object.keys(broken.files).length === 0, Object.keys(broken.files));
    breaks = undefined;
    check(`after ${what} all is as before`, tool.run(asJson, files).out === before.out);
  }
}

async function cleanRuns() {
  const tool = await loadTool(fs.readFileSync(wasm), glue);
  const wrote = tool.run([...asJson.slice(0, 2), "--json", "solo.json"], files);
  check("what is written comes back, and nothing else", Object.keys(wrote.files).join() === "solo.json", Object.keys(wrote.files));
  const next = tool.run(["analyze", name], {});
  check("a file of the run before is not there", next.status === 1, next.out.slice(0, 100));
  const inFolder = tool.run(["analyze", `deep/er/${name}`, "--json", "deep/x.json"], { [`deep/er/${name}`]: files[name] });
  check("files may lie in folders", Object.keys(inFolder.files).join() === "deep/x.json", inFolder.err);
  const leftOut = {
    "LilyPond": ["handout", name, "-o", "sheet.pdf"],
    "no database": ["analyze", name, "--against", "solos.db"],
    "keeps no database": ["survey", ".", "--db", "solos.db"],
  };
  for (const [words, args] of Object.entries(leftOut)) {
    const refused = tool.run(args, { ...files, "solos.db": "" });
    check(`${args.join(" ")} is refused`, refused.status === 1 && refused.err.includes(words), `${refused.status} ${refused.err}`);
    check("and writes nothing", Object.keys(refused.files).length === 0, Object.keys(refused.files));
  }
}

cleanRuns().then(breakDowns).then(manyAnalyses).then(() => process.exit(failures === 0 ? 0 : 1));
