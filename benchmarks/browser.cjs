// browser.cjs PAGE PROGRAM SCORE CHROMIUM PLAYWRIGHT
//
// What the page for browsers costs: its size, how soon it is ready, and how long a solo takes when it is analysed again, beside
// the program as a process on its own, in turns. PLAYWRIGHT is the folder of the package playwright-core.
"use strict";

const { spawnSync } = require("node:child_process");
const fs = require("node:fs");
const path = require("node:path");

const [page, program, score, chromiumFile, playwright] = process.argv.slice(2);
const { chromium } = require(path.resolve(playwright));

const times = 21;
const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
const told = (values) => `${median(values).toFixed(1)} ms (${Math.min(...values).toFixed(1)} to ${Math.max(...values).toFixed(1)})`;

function nativeMilliseconds(args) {
  const begin = performance.now();
  const ended = spawnSync(program, args, { maxBuffer: 1 << 28 });
  if (ended.status !== 0) throw new Error(ended.stderr.toString());
  return performance.now() - begin;
}

/// In the page: one analysis through the worker.
const inPage = ([text, extra]) =>
  (async () => {
    const begin = performance.now();
    const result = await window.benchmarked.runAsync(["analyze", "solo.musicxml", "--json", "-", ...extra], { "solo.musicxml": text });
    if (result.status !== 0) throw new Error(result.err);
    return performance.now() - begin;
  })();

async function measure() {
  const bytes = fs.statSync(page).size;
  const text = fs.readFileSync(score, "utf8");
  const browser = await chromium.launch({ executablePath: chromiumFile, args: ["--no-sandbox"] });
  const ready = [];
  let tab;
  for (let i = 0; i < 7; ++i) {
    await tab?.close();
    tab = await browser.newPage();
    await tab.goto(`file://${path.resolve(page)}`);
    ready.push(await tab.evaluate(async () => {
      const begin = performance.now();
      window.benchmarked = await loadInlinedTool();
      const loaded = performance.now() - begin;
      return performance.getEntriesByType("navigation")[0].domInteractive + loaded;
    }));
  }
  const first = await tab.evaluate(inPage, [text, []]);
  const asJson = { module: [], native: [] };
  const withPage = { module: [], native: [] };
  for (let i = 0; i < times; ++i) {
    asJson.module.push(await tab.evaluate(inPage, [text, []]));
    asJson.native.push(nativeMilliseconds(["analyze", score, "--json", "-"]));
    withPage.module.push(await tab.evaluate(inPage, [text, ["--html", "page.html"]]));
    withPage.native.push(nativeMilliseconds(["analyze", score, "--json", "-", "--html", "/dev/null"]));
  }
  await browser.close();
  console.log(`page: ${(bytes / 1e6).toFixed(2)} MB`);
  console.log(`from opening the file to a tool that is ready: ${told(ready)}`);
  console.log(`${path.basename(score)}, first analysis: ${first.toFixed(0)} ms`);
  for (const [what, { module, native }] of Object.entries({ "again, as JSON": asJson, "again, as JSON and a page": withPage })) {
    const settled = module.slice(10);
    console.log(`${what}: in the page ${told(settled)} after ten, the program ${told(native)}: ${(median(settled) / median(native)).toFixed(1)} times`);
  }
}
measure();
