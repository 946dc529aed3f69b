// page_frames.cjs PAGE CHROMIUM PACKAGES
//
// How long the page of a solo takes to load, and how long its frames last while it scrolls and while it plays, in
// milliseconds. PACKAGES is a folder with playwright-core, which the test npm.install makes. Let the machine be quiet.
const path = require("node:path");
const [page, executablePath, packages] = process.argv.slice(2);
const { chromium } = require(require.resolve("playwright-core", { paths: [path.resolve(packages)] }));

const framesOf = (act) => `(async () => {
  document.documentElement.style.scrollBehavior = "auto";
  const frames = [];
  let last = performance.now();
  for (let i = 0; i < 120; i += 1) {
    ${act};
    await new Promise(requestAnimationFrame);
    const now = performance.now();
    frames.push(now - last);
    last = now;
  }
  return frames.sort((a, b) => a - b);
})()`;
const inWords = (frames) => `median ${frames[60].toFixed(1)}, 95th of 100 ${frames[114].toFixed(1)}, longest ${frames[119].toFixed(1)}`;

(async () => {
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--autoplay-policy=no-user-gesture-required", "--disable-audio-output"] });
  for (const width of [390, 1280]) {
    const context = await browser.newContext({ viewport: { width, height: 800 } });
    const tab = await context.newPage();
    await tab.goto(`file://${path.resolve(page)}`);
    const load = await tab.evaluate(() => performance.getEntriesByType("navigation")[0].loadEventEnd);
    console.log(`${width} px: loads in ${load.toFixed(0)}`);
    console.log(`${width} px: frames while it scrolls: ${inWords(await tab.evaluate(framesOf("window.scrollBy(0, 400)")))}`);
    await tab.locator("#play").click();
    console.log(`${width} px: frames while it plays:   ${inWords(await tab.evaluate(framesOf("")))}`);
    await context.close();
  }
  await browser.close();
})();
