// in_chromium.cjs TREE PAGE PROGRAM CHROMIUM
//
// The page from the disk in a browser: it asks for nothing, its module says and writes what the program does, and a run that breaks
// down or is stopped does no harm to the page.
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const { chromium } = require("playwright-core");

const [tree, page, program, browserFile] = process.argv.slice(2);
const { analyses, damaged, seen } = require(path.join(tree, "tests/browser/cases.cjs"));
const { loadNative } = require(path.join(tree, "tests/browser/stand_in.cjs"));

const skipped = (reason) => {
  console.log(`skipped: ${reason}`);
  process.exit(0);
};
if (!browserFile || browserFile.endsWith("-NOTFOUND")) skipped("chromium was not found when the build was configured");
if (!fs.existsSync(page)) skipped("the page for browsers is not made; scripts/browser makes it");

const patience = 5 * 60 * 1000;  // ends what hangs, however busy the machine is
let failures = 0;
function check(what, sound, found) {
  if (sound) return;
  failures += 1;
  console.error(`FAILED: ${what}: ${JSON.stringify(found)?.slice(0, 600)}`);
}

async function opened(browser) {
  const tab = await browser.newPage();
  tab.setDefaultTimeout(patience);
  const complaints = [];
  tab.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  tab.on("pageerror", (error) => complaints.push(error.message));
  tab.on("request", (request) => {
    if (!/^(file:.*\/insideline\.html|blob:)/.test(request.url())) complaints.push(`asks for ${request.url().slice(0, 200)}`);
  });
  await tab.goto(`file://${path.resolve(page)}`);
  await tab.evaluate(async () => { window.tested = await loadInlinedTool(); });
  return { tab, complaints };
}

/// Bytes go to the page and come back as lists of numbers.
async function runInPage(tab, args, files) {
  const sent = Object.entries(files).map(([name, bytes]) => [name, Buffer.from(bytes).toString("base64")]);
  const result = await tab.evaluate(async ([list, given]) => {
    const bytesOf = (text) => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    const done = await window.tested.runAsync(list, Object.fromEntries(given.map(([name, text]) => [name, bytesOf(text)])));
    return { ...done, files: Object.entries(done.files).map(([name, bytes]) => [name, [...bytes]]) };
  }, [args, sent]);
  return { ...result, files: Object.fromEntries(result.files.map(([name, bytes]) => [name, Uint8Array.from(bytes)])) };
}

async function saysTheSame(tab) {
  const native = loadNative(program);
  const pieces = analyses(tree, ["corpus-demo", "tests/io/data", "tests/io/data/abc", "tests/cli/data"]);
  const cases = [...pieces, ...damaged(pieces.slice(0, 12))];
  check("there is something to compare", cases.length > 50, cases.length);
  for (const { name, args, files } of cases) {
    const found = await runInPage(tab, args, files);
    check(`${name}: the page's module says what the program says`, seen(found) === seen(native.run(args, files)), found.err);
  }
  console.log(`${cases.length} runs compared in the browser`);
}

async function survives(tab) {
  const found = await tab.evaluate(async () => {
    const faulty = document.getElementById("insideline-glue").textContent + `
      ;{ const sound = insidelineModule;
         const trap = Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 116, 0, 0, 10, 5, 1, 3, 0, 0, 11);
         insidelineModule = (module) => {
           const ready = sound(module);
           const callMain = module.callMain;
           module.callMain = (args) => args[0] === "trap" ? new WebAssembly.Instance(new WebAssembly.Module(trap)).exports.t() : callMain(args);
           return ready;
         }; }`;
    const tool = await loadTool(await unpackInlined("insideline-module"), insidelineModule, faulty);
    const broken = await tool.runAsync(["trap"], {});
    const after = await tool.runAsync(["--version"], {});
    const running = tool.runAsync(["--version"], {}).catch((error) => error.name);
    const waiting = tool.runAsync(["--version"], {}).catch((error) => error.name);
    tool.stop();
    return { broken, after, stopped: [await running, await waiting], anew: await tool.runAsync(["--version"], {}) };
  });
  check("a trap is told as an error", found.broken.status === 1 && found.broken.err.includes("broke down"), found.broken);
  check("the next run works", found.after.status === 0 && found.after.out.startsWith("insideline "), found.after);
  check("what is stopped says so", found.stopped.join() === "StoppedError,StoppedError", found.stopped);
  check("and the next run works", found.anew.out === found.after.out, found.anew);
}

async function test() {
  const browser = await chromium.launch({ executablePath: browserFile, args: ["--no-sandbox"] });
  const { tab, complaints } = await opened(browser);
  await saysTheSame(tab);
  await survives(tab);
  check("the page complains of nothing and asks for nothing", complaints.length === 0, complaints);
  await browser.close();
  process.exit(failures === 0 ? 0 : 1);
}
test();
