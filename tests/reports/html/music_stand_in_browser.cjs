// music_stand_in_browser.cjs PROGRAM CORPUS CHROMIUM FIREFOX
//
// A solo's page on the music stand: onsets measured in the samples it sounds, the bar that sounds always in the picture,
// questions, names for other players, remarks, links to a place; at the widths of telephones and desks, light and dark, by
// touch and by keyboard. Judged beside our own checks by axe-core; the main path in a second engine where there is one.
const { execFileSync } = require("node:child_process");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const playwright = require("playwright-core");
const axeSource = require("axe-core").source;

const [program, corpus, chromiumFile, firefoxFile] = process.argv.slice(2);
const isMissing = (file) => !file || file.endsWith("-NOTFOUND");
if (isMissing(chromiumFile)) {
  console.log("skipped: chromium was not found when the build was configured");
  process.exit(0);
}

const patience = 5 * 60 * 1000; // ends what hangs, however busy the machine is
const widths = [320, 390, 768, 1280];
let checks = 0;
let failures = 0;
function check(what, sound, found) {
  checks += 1;
  if (sound) return;
  failures += 1;
  console.error(`FAILED: ${what}${found === undefined ? "" : `\n  found: ${JSON.stringify(found).slice(0, 1500)}`}`);
}
const folder = fs.mkdtempSync(path.join(os.tmpdir(), "insideline-stand-"));
const run = (...options) => execFileSync(program, options, { cwd: folder, encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "pipe"] });

function written(name) {
  const changes = path.join(corpus, `${name}.changes`);
  const page = path.join(folder, `${name}.html`);
  const printed = run("analyze", path.join(corpus, `${name}.musicxml`), ...(fs.existsSync(changes) ? ["--changes", changes] : []), "--html", page, "--json", "-");
  const analysis = JSON.parse(printed);
  const quarters = (written) => written.split("/").reduce((above, below) => above / below);
  for (const note of analysis.notes) note.at = Number(quarters(note.onset));
  return { name, page, analysis };
}

async function opened(browser, page, { width = 1280, touch = width < 600, dark = false, prepare, hash = "" } = {}) {
  const context = await browser.newContext({ viewport: { width, height: width < 600 ? 700 : 900 }, hasTouch: touch, colorScheme: dark ? "dark" : "light",
    reducedMotion: "reduce", acceptDownloads: true });
  context.setDefaultTimeout(patience);
  const tab = await context.newPage();
  const complaints = [];
  tab.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  tab.on("pageerror", (error) => complaints.push(error.message));
  if (prepare) await tab.addInitScript(prepare);
  await tab.goto(`file://${page}${hash}`);
  return { context, tab, complaints };
}
const overhang = (tab) => tab.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
const setTo = (tab, id, value) => tab.evaluate(([name, text]) => {
  const input = document.getElementById(name);
  input.value = text;
  input.dispatchEvent(new Event("input"));
}, [id, String(value)]);
const text = (tab, selector) => tab.locator(selector).innerText();

/// What the page's own schedule and sound put into samples, every third event by itself, so that silence stands before each.
const rendered = (tab, settings, range, seconds, kind) => tab.evaluate(async ([how, bounds, length, wanted]) => {
  const { schedule, sound, map } = window.insideline;
  const rate = 44100;
  const onsets = [];
  for (let third = 0; third < 3; third += 1) {
    const context = new OfflineAudioContext(1, rate * length, rate);
    const sounds = sound(context);
    sounds.level("master", 0.5);
    const plan = schedule.timeline(map.data, how, bounds, 0.5);
    let count = 0;
    // Asked for in small portions, as the player does.
    for (let time = 0.1; time < length; time += 0.1)
      for (const event of plan.take(time)) {
        if (event.kind !== wanted) continue;
        if (count % 3 === third) sounds.play(event, event.when);
        count += 1;
      }
    const samples = (await context.startRendering()).getChannelData(0);
    const quiet = 1e-5;
    let silent = rate;
    samples.forEach((value, i) => {
      if (Math.abs(value) > quiet) {
        if (silent > 200) onsets.push(i / rate);
        silent = 0;
      } else silent += 1;
    });
  }
  return onsets.sort((a, b) => a - b);
}, [settings, range, seconds, kind]);

const millisecond = 0.001;
function compareOnsets(what, wanted, heard) {
  check(`${what}: as many onsets as are written`, heard.length === wanted.length, { heard: heard.length, wanted: wanted.length });
  const late = wanted.map((time, i) => heard[i] - time);
  const worst = Math.max(...late.map(Math.abs));
  console.log(`${what}: ${wanted.length} onsets, the worst ${(worst * 1000).toFixed(3)} ms off`);
  check(`${what}: no onset is off by more than a millisecond`, worst <= millisecond, late.filter((by) => Math.abs(by) > millisecond));
}

async function onsetsAreExact(tab, piece, engine) {
  // Bars 3 and 4 three times over, a step faster each time: the seam and the steps from the written notes alone.
  const notes = piece.analysis.notes.filter((note) => (note.bar === 3 || note.bar === 4) && !note.grace);
  const begin = 8;
  const onsetOf = (note) => note.at - begin;
  const tempos = [120, 140, 160];
  const starts = tempos.reduce((list, tempo) => [...list, list.at(-1) + (8 * 60) / tempo], [0.5]);
  const wanted = tempos.flatMap((tempo, pass) => notes.map((note) => starts[pass] + (onsetOf(note) * 60) / tempo));
  const settings = { tempo: 120, swing: 0.5, loop: true, countIn: 0, steps: { passes: 1, by: 20, top: 160 } };
  const range = { begin, end: begin + 8 };
  const end = starts[3] - 0.02;
  compareOnsets(`${engine}: the line over the seam`, wanted, (await rendered(tab, settings, range, end, "note")));
  const clicks = tempos.flatMap((tempo, pass) => Array.from({ length: 8 }, (unused, beat) => starts[pass] + (beat * 60) / tempo));
  compareOnsets(`${engine}: the click over the seam`, clicks, await rendered(tab, settings, range, end, "click"));
  // With swing the eighths in the middle of a beat come later, and nothing else moves.
  const swung = notes.map((note) => {
    const at = onsetOf(note);
    const isOffBeat = Math.abs(at - Math.floor(at) - 0.5) < 1e-6;
    return 0.5 + ((isOffBeat ? Math.floor(at) + 2 / 3 : at) * 60) / 120;
  });
  compareOnsets(`${engine}: with swing`, swung, await rendered(tab, { ...settings, swing: 2 / 3, loop: false, steps: { passes: 0, by: 0, top: 0 } }, range, 5, "note"));
}

async function graceNotesComeBefore(tab, piece) {
  const graces = piece.analysis.notes.filter((note) => note.grace);
  check(`${piece.name}: has grace notes`, graces.length > 0);
  const events = await tab.evaluate(() => {
    const { schedule, map } = window.insideline;
    const [last] = map.data.bars.slice(-1);
    return schedule.pass(map.data, { tempo: 120, swing: 0.5, steps: { passes: 0 } }, { begin: map.data.bars[0][1], end: last[1] + last[2] }).events
      .filter(({ kind }) => kind === "note").map(({ index, at, seconds }) => ({ index, at, seconds }));
  });
  for (const { index } of graces) {
    const grace = events.find((event) => event.index === index);
    const main = events.find((event) => event.index === index + 1);
    check(`${piece.name}: grace note ${index} sounds before its note and is over by then`,
      grace.at < main.at - 0.02 && grace.at + grace.seconds <= main.at + 1e-6, { grace, main });
  }
}

/// Where the notes that sound lie in the window, looked at whenever one lights up.
const watchLit = () => {
  window.places = [];
  document.addEventListener("DOMContentLoaded", () => new MutationObserver((changes) => {
    for (const { target } of changes) {
      if (!target.matches(".note.lit")) continue;
      requestAnimationFrame(() => requestAnimationFrame(() => {
        const { left, right, top, bottom } = target.querySelector("use").getBoundingClientRect();
        const dock = document.querySelector(".dock").getBoundingClientRect();
        window.places.push({ id: target.id, left, right, top, bottom, floor: dock.top, width: innerWidth,
          sideways: scrollX, stop: document.getElementById("play").getBoundingClientRect().bottom <= innerHeight });
      }));
    }
  }).observe(document.getElementById("score"), { attributes: true, attributeFilter: ["class"], subtree: true }));
};
async function staysInThePicture(browser, piece, width) {
  const { context, tab, complaints } = await opened(browser, piece.page, { width, prepare: watchLit });
  await setTo(tab, "tempo", 320);
  await tab.locator("#more").click();
  await tab.locator("#play").click();
  // Through the first two chorus lines and on: several rows are turned.
  await tab.waitForFunction(() => window.places.length >= 24, null, { timeout: patience });
  const places = await tab.evaluate(() => window.places);
  const out = places.filter(({ left, right, top, bottom, floor, width: room }) => left < 0 || right > room || top < 0 || bottom > floor);
  check(`${width} px: the note that sounds is in the picture, above the player`, out.length === 0, out);
  check(`${width} px: Stop stays on the screen`, places.every(({ stop }) => stop));
  check(`${width} px: and nothing moves sideways`, places.every(({ sideways }) => sideways === 0));
  await tab.keyboard.press("p");
  check(`${width} px: playing brings no complaint`, complaints.length === 0, complaints);
  await context.close();
}

/// Every kind of page, some with a share of less than one in a hundred.
function allPages(pieces) {
  const pages = Object.fromEntries(pieces.map(({ name, page }) => [name, page]));
  const solos = path.join(folder, "solos");
  fs.mkdirSync(solos);
  for (const name of fs.readdirSync(corpus)) if (name.endsWith(".musicxml")) fs.copyFileSync(path.join(corpus, name), path.join(solos, name));
  run("survey", solos, "--db", "solos.db");
  const page = (name) => (pages[name] = path.join(folder, `${name}.html`));
  run("survey", "--report", "--by", "folder", "--db", "solos.db", "--html", page("survey"));
  run("compare", path.join(corpus, "ropewalk.musicxml"), path.join(corpus, "net-menders.musicxml"), "--html", page("compare"));
  run("drill", "--changes", path.join(corpus, "lantern-street.changes"), "--arpeggios", "down", "--range", "F3-C6", "-o", "sheet.musicxml");
  run("assess", "sheet.musicxml", "--against", "sheet.musicxml", "--log", "class.log", "--player", "Anke", "--day", "2026-11-20", "--html", page("take"));
  run("log", "class.log", "--html", page("log"));
  return pages;
}
/// 104 bars of running eighths on the root, with one note outside: it has a row of its own that says "under 1 %".
function rareNote() {
  const bar = (number) => `<measure number="${number}">${number > 1 ? "" : "<attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>"}` +
    "<harmony><root><root-step>C</root-step></root><kind>major-seventh</kind></harmony>" +
    Array.from({ length: 8 }, (unused, i) => `<note><pitch><step>${"CEGB"[i % 4]}</step>${number === 50 && i === 4 ? "<alter>1</alter>" : ""}<octave>4</octave></pitch><duration>1</duration></note>`).join("") + "</measure>";
  fs.writeFileSync(path.join(folder, "rare.musicxml"), `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Horn</part-name></score-part></part-list><part id="P1">${
    Array.from({ length: 104 }, (unused, i) => bar(i + 1)).join("")}</part></score-partwise>`);
  const page = path.join(folder, "rare.html");
  run("analyze", "rare.musicxml", "--html", page);
  return page;
}
async function fitsEveryWidth(browser, pages) {
  for (const [name, page] of Object.entries(pages)) {
    const { context, tab } = await opened(browser, page, { width: widths[0] });
    if (name === "rare") check("rare: has a row under 1 %", (await tab.evaluate(() => document.body.textContent)).includes("under 1 %"));
    for (const width of widths) {
      await tab.setViewportSize({ width, height: 800 });
      await tab.evaluate(() => { for (const details of document.querySelectorAll("details")) details.open = true; });
      check(`${name}: nothing scrolls sideways at ${width} px`, (await overhang(tab)) <= 0, await overhang(tab));
    }
    await context.close();
  }
}

const isHidden = (tab, id) => tab.evaluate((name) => {
  const note = document.getElementById(name);
  return getComputedStyle(note.querySelector("text")).display === "none" && !/chord tone|tension|fifth of/.test(note.getAttribute("aria-label"));
}, id);
async function asksAndAnswers(browser, piece) {
  const { context, tab, complaints } = await opened(browser, piece.page, { width: 390, hash: "#bars=3-3" });
  const inBar = piece.analysis.notes.filter((note) => note.bar === 3 && note.degree);
  await tab.locator("#ask").selectOption("degree");
  check("questions: the topic is in the address", (await tab.evaluate(() => location.hash)).includes("ask=degree"));
  for (const note of inBar) check(`questions: note ${note.index} is hidden`, await isHidden(tab, `n${note.index}`));
  const other = piece.analysis.notes.find((note) => note.bar === 10);
  check("questions: notes of other bars are not", !(await isHidden(tab, `n${other.index}`)));
  const [first, ...rest] = inBar;
  await tab.locator(`#n${first.index} use`).tap();
  check("questions: a tap shows the answer", !(await isHidden(tab, `n${first.index}`)));
  check("questions: and says it", (await text(tab, "#ask-said")).includes(first.degree.replaceAll("b", "♭").replaceAll("#", "♯")), await text(tab, "#ask-said"));
  await tab.locator("#ask-knew").tap();
  check("questions: what was known is counted", (await text(tab, "#ask-said")).includes(`1 of ${inBar.length} told, 1 known`), await text(tab, "#ask-said"));
  // The others by keyboard.
  for (const note of rest) {
    await tab.locator(`#n${note.index}`).focus();
    await tab.keyboard.press("Enter");
  }
  await tab.keyboard.press("k");
  const end = await text(tab, "#ask-said");
  check("questions: there is a count at the end", end.includes(`That is all: 2 of ${inBar.length} known`), end);
  check("questions: with the bars to look at again", inBar.length <= 2 || end.includes("Look again at bar 3"), end);

  await tab.locator("#ask").selectOption("lead");
  await tab.evaluate(() => { location.hash = "#ask=lead"; }); // the whole solo
  const led = piece.analysis.connections.filter((connection) => connection.guide_tone && connection.to_note !== null);
  check("questions: thirds and sevenths are led home somewhere", led.length > 1, led.length);
  await tab.evaluate((index) => document.getElementById(`n${index}`).dispatchEvent(new MouseEvent("click", { bubbles: true })), led[0].to_note);
  check("questions: one is found", (await text(tab, "#ask-said")).includes(`1 of ${new Set(led.map(({ to_note: to }) => to)).size} found`), await text(tab, "#ask-said"));
  const besides = piece.analysis.notes.find((note) => note.index > 0 && note.degree && !led.some(({ to_note: to }) => to === note.index));
  await tab.evaluate((index) => document.getElementById(`n${index}`).dispatchEvent(new MouseEvent("click", { bubbles: true })), besides.index);
  check("questions: a tap beside is counted", (await text(tab, "#ask-said")).includes("1 tap beside it"), await text(tab, "#ask-said"));
  await tab.locator("#ask-close").tap();
  check("questions: leaving off shows everything again", (await tab.locator(".asked").count()) === 0 && (await tab.locator("#ask-panel").isHidden()));
  const kept = await tab.evaluate(() => [localStorage.length, sessionStorage.length, document.cookie].join());
  check("questions: nothing is kept anywhere", kept === "0,0,", kept);
  check("questions: without a complaint", complaints.length === 0, complaints);
  await context.close();
}

async function readsForOthers(browser, piece) {
  const { context, tab } = await opened(browser, piece.page);
  const shown = () => tab.evaluate(() => ({ chord: document.getElementById("c0").textContent, note: document.getElementById("n0").getAttribute("aria-label"),
    degree: document.querySelector("#n0 text").textContent }));
  const concert = await shown();
  await tab.locator("#names-for").selectOption({ label: "Alto saxophone" });
  const alto = await shown();
  const steps = "CDEFGAB";
  const sixthUp = (name) => steps[(steps.indexOf(name[0]) + 5) % 7];
  check("names: an alto reads a sixth higher", alto.chord[0] === sixthUp(concert.chord) && alto.note[0] === sixthUp(concert.note), { concert, alto });
  check("names: and the same degrees", alto.degree === concert.degree);
  check("names: in the address", (await tab.evaluate(() => location.hash)).includes("names=Alto+saxophone"));
  await tab.setViewportSize({ width: 390, height: 800 });
  await tab.waitForFunction(() => document.querySelectorAll("#score svg.map").length > 20);
  check("names: they stay when the rows are cut anew", (await shown()).chord === alto.chord);
  await tab.locator("#names-for").selectOption("0");
  check("names: and back", JSON.stringify(await shown()) === JSON.stringify(concert));
  await context.close();
}

async function linksToAPlace(browser, piece) {
  const { context, tab } = await opened(browser, piece.page);
  await tab.locator('input[data-part="lanes"]').uncheck();
  await tab.evaluate(() => window.insideline.loop.chooseBars(4, 5));
  await tab.locator("#more").click();
  const link = await tab.evaluate(() => document.getElementById("place-link").href);
  await context.close();
  const again = await opened(browser, piece.page, { hash: link.slice(link.indexOf("#")) });
  const state = await again.tab.evaluate(() => ({ lanes: document.querySelector('input[data-part="lanes"]').checked, words: document.getElementById("where").textContent,
    loop: document.getElementById("loop").checked, marked: document.querySelectorAll(".chosen").length, drawn: getComputedStyle(document.querySelector("#score .lanes")).display }));
  check("link: leads to these bars, this view and this loop", !state.lanes && state.drawn === "none" && state.words === "bars 5 to 6" && state.loop && state.marked > 0, { link, state });
  await again.tab.evaluate(() => { location.hash = "#section=2"; });
  await again.tab.waitForFunction(() => document.getElementById("where").textContent.startsWith("section"));
  check("link: a section can be asked for", (await text(again.tab, "#where")) === "section B", await text(again.tab, "#where"));
  await again.context.close();
}

async function keepsRemarks(browser, piece) {
  const { context, tab, complaints } = await opened(browser, piece.page, { width: 768 });
  const remark = "Lean on the seventh </script><b>\"here\"</b> & sing it";
  const write = async (bar, words) => {
    await tab.locator("#remark-bar").fill(String(bar));
    await tab.locator("#remark-text").fill(words);
    await tab.locator("#remark-keep").click();
  };
  const downloaded = async (name) => {
    const [download] = await Promise.all([tab.waitForEvent("download"), tab.locator("#remark-download").click()]);
    const file = path.join(folder, name);
    await download.saveAs(file);
    check("remarks: the new page has a name of its own", download.suggestedFilename() === `${piece.name}-with-remarks.html`, download.suggestedFilename());
    return file;
  };
  await tab.locator("#remark-form summary").click();
  await write(400, "nowhere");
  check("remarks: a bar that is not there is refused", (await text(tab, "#remark-status")).includes("There is no bar 400"), await text(tab, "#remark-status"));
  await write(3, remark);
  check("remarks: the bar has a sign", (await tab.locator(".remark-sign").count()) === 1);
  const file = await downloaded("remarks.html");
  check("remarks: the old file stays as it was", fs.readFileSync(file, "utf8") !== fs.readFileSync(piece.page, "utf8"));
  await write(3, "");
  const without = await downloaded("without.html");
  const words = (name) => fs.readFileSync(name, "utf8").replace(/<[^>]*>/g, "").replace(/"remarks":\[\],?/, "");
  check("remarks: none are left when they are taken off", (await tab.locator(".remark-sign").count()) === 0);
  await context.close();
  const next = await opened(browser, file, { width: 390, hash: "#bars=3-3" });
  check("remarks: the new page has the remark", (await text(next.tab, ".remark-list")).includes(remark), await text(next.tab, ".remark-list"));
  check("remarks: and says it at its bar", (await text(next.tab, "#remark-said")) === `Bar 3: ${remark}`, await text(next.tab, "#remark-said"));
  check("remarks: as text", (await next.tab.locator(".remark-list b").count()) === 0);
  check("remarks: the new page has every note and its player", (await next.tab.locator(".note[role=option]").count()) === piece.analysis.notes.length && (await text(next.tab, "#play")) === "Play");
  check("remarks: and loads without a complaint", next.complaints.length === 0, next.complaints);
  await next.tab.goto(`file://${without}`);
  check("remarks: a page without them is the page that was", (await next.tab.evaluate(() => document.querySelectorAll(".dock, #ask, #names-for").length)) === 3 && words(without).length > 1000);
  await next.context.close();
  check("remarks: writing them brings no complaint", complaints.length === 0, complaints);
}

/// Nothing is found at all, whatever is open on the page.
async function isAccessible(browser, piece) {
  for (const [width, dark] of [[390, true], [1280, false]]) {
    const { context, tab } = await opened(browser, piece.page, { width, dark, hash: "#bars=2-3&ask=degree&loop=1" });
    await tab.locator("#more").click();
    await tab.evaluate(() => { for (const details of document.querySelectorAll("details")) details.open = true; });
    await tab.locator("#all-notes tbody tr").first().waitFor();
    await tab.evaluate(axeSource);
    const { violations, passes } = await tab.evaluate(() => window.axe.run(document, { resultTypes: ["violations"], selectors: false }));
    const found = violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(" | ")}`);
    check(`axe-core finds nothing at ${width} px, ${dark ? "dark" : "light"}`, found.length === 0, found);
    check(`axe-core looked at ${width} px`, passes.length > 15, passes.length);
    await context.close();
  }
}

async function worksByKeyboardAlone(browser, piece) {
  const { context, tab } = await opened(browser, piece.page);
  const reached = new Set();
  for (let presses = 0; presses < 150; presses += 1) {
    await tab.keyboard.press("Tab");
    const id = await tab.evaluate(() => document.activeElement.id || document.activeElement.dataset.part || "");
    if (presses > 20 && reached.has(id) && id === "theme") break;
    reached.add(id);
  }
  for (const id of ["theme", "lanes", "names-for", "ask", "play", "loop", "slower", "faster", "more"]) check(`keyboard: Tab reaches ${id}`, reached.has(id), [...reached]);
  await tab.locator("#n0").focus();
  await tab.keyboard.press("l");
  check("keyboard: L takes the bar of the note", /^bar/.test(await text(tab, "#where")), await text(tab, "#where"));
  for (let i = 0; i < 8; i += 1) await tab.keyboard.press("ArrowRight");
  await tab.keyboard.press("]");
  check("keyboard: ] sets the last bar", /^bars 1 to/.test(await text(tab, "#where")), await text(tab, "#where"));
  check("reduced motion: nothing glides", (await tab.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior)) === "auto");
  await context.close();
}

/// In a frame that is given its text there is no address of its own.
async function worksInAFrame(browser, piece) {
  const { context, tab, complaints } = await opened(browser, piece.page);
  await tab.goto("about:blank");
  await tab.evaluate((html) => {
    const frame = document.createElement("iframe");
    Object.assign(frame, { srcdoc: html, width: 800, height: 600 });
    frame.setAttribute("sandbox", "allow-scripts");
    document.body.append(frame);
  }, fs.readFileSync(piece.page, "utf8"));
  const frame = tab.frameLocator("iframe");
  await frame.locator("#play").waitFor();
  await frame.locator("#loop").check();
  await frame.locator("#ask").selectOption("degree");
  check("frame: questions are asked", (await frame.locator(".asked").count()) > 10);
  await frame.locator("#more").click();
  check("frame: there is no link that would lead out of it", await frame.locator("#place-link").isHidden());
  check("frame: without a complaint", complaints.length === 0, complaints);
  await context.close();
}

/// How much is done for a beat, whatever the length: parts of the page that change, tones that are made.
async function worksLittleWhilePlaying(browser, piece) {
  const count = () => {
    window.work = { changed: 0, tones: 0 };
    const Oscillator = window.OscillatorNode;
    window.OscillatorNode = class extends Oscillator {
      constructor(...settings) { super(...settings); window.work.tones += 1; }
    };
    document.addEventListener("DOMContentLoaded", () => setTimeout(() => new MutationObserver((changes) => { window.work.changed += changes.length; })
      .observe(document.documentElement, { attributes: true, childList: true, subtree: true, characterData: true })));
    window.lit = 0;
  };
  const { context, tab } = await opened(browser, piece.page, { prepare: count });
  await tab.locator("#play").click();
  await tab.waitForFunction(() => document.getElementById("play").textContent === "Stop", null, { timeout: patience });
  await tab.waitForFunction(() => window.work.changed >= 40, null, { timeout: patience });
  const { changed, tones, beats } = await tab.evaluate(() => ({ ...window.work, beats: Number(document.getElementById("tempo").value) }));
  check("playing: tones are made as they come near, not all at once", tones > 0 && tones < piece.analysis.notes.length, { changed, tones, beats });
  await context.close();
}

/// The main path in the second engine. A machine without a loudspeaker never opens its sound, so the page gets a clock
/// that runs and sound that goes nowhere; what is rendered into samples is the engine's own.
const withoutLoudspeaker = () => {
  window.AudioContext = class extends OfflineAudioContext {
    constructor() { super(1, 44100, 44100); this.begin = performance.now(); }
    get currentTime() { return (performance.now() - this.begin) / 1000; }
    resume() { return Promise.resolve(); }
  };
};
async function worksInFirefox(piece) {
  if (isMissing(firefoxFile)) {
    console.log("left out: firefox-esr was not found when the build was configured");
    return;
  }
  const browser = await playwright._bidiFirefox.launch({ executablePath: firefoxFile, timeout: patience });
  const context = await browser.newContext({ viewport: { width: 390, height: 700 } });
  context.setDefaultTimeout(patience);
  const tab = await context.newPage();
  const complaints = [];
  tab.on("pageerror", (error) => complaints.push(error.message));
  await tab.addInitScript(withoutLoudspeaker);
  await tab.goto(`file://${piece.page}`);
  check("firefox: every note is named", (await tab.locator(".note[role=option]").count()) === piece.analysis.notes.length);
  check("firefox: rows are as wide as the screen", (await overhang(tab)) <= 0 && (await tab.locator("#score svg.map").count()) > 20);
  await tab.evaluate(() => document.getElementById("n3").focus());
  check("firefox: a note says what it is", (await text(tab, "#tip")).includes(piece.analysis.notes[3].name));
  await tab.keyboard.press("l");
  check("firefox: its bar is chosen, and in the address", /bars=\d+-\d+&loop=1/.test(await tab.evaluate(() => location.hash)), await tab.evaluate(() => location.hash));
  await tab.keyboard.press("p");
  await tab.waitForFunction(() => document.querySelectorAll(".note.lit").length > 0, null, { timeout: patience });
  check("firefox: it plays", (await text(tab, "#play")) === "Stop");
  await tab.keyboard.press("p");
  await tab.locator("#ask").selectOption("degree");
  check("firefox: it asks", (await tab.locator(".asked").count()) > 0);
  await onsetsAreExact(tab, piece, "firefox");
  check("firefox: without an error", complaints.length === 0, complaints);
  await browser.close();
}

async function main() {
  const browser = await playwright.chromium.launch({ timeout: patience, executablePath: chromiumFile,
    args: ["--no-sandbox", "--autoplay-policy=no-user-gesture-required", "--disable-audio-output"] });
  const piece = written("lantern-street");
  const blues = written("fish-dock-blues");
  const sound = await opened(browser, piece.page);
  await onsetsAreExact(sound.tab, piece, "chromium");
  await sound.tab.goto(`file://${blues.page}`);
  await graceNotesComeBefore(sound.tab, blues);
  await sound.context.close();
  for (const width of [320, 390, 1280]) await staysInThePicture(browser, piece, width);
  await fitsEveryWidth(browser, { ...allPages([piece, blues]), rare: rareNote() });
  await asksAndAnswers(browser, piece);
  await readsForOthers(browser, piece);
  await linksToAPlace(browser, piece);
  await keepsRemarks(browser, piece);
  await isAccessible(browser, piece);
  await worksByKeyboardAlone(browser, piece);
  await worksInAFrame(browser, piece);
  await worksLittleWhilePlaying(browser, piece);
  await browser.close();
  await worksInFirefox(piece);
}

main().catch((error) => { failures += 1; console.error(error); }).finally(() => {
  fs.rmSync(folder, { recursive: true, force: true });
  console.log(`${checks} checks of the page as a music stand, ${failures} failed`);
  process.exit(failures === 0 ? 0 : 1);
});
