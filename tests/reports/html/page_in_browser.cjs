// page_in_browser.cjs PROGRAM CORPUS CHROMIUM PDFTOTEXT
//
// The pages of `analyze --html`, and that of a practice log, as readers meet them: in a browser, from disk, by pointer,
// keyboard and ear, on a telephone and on paper. Judged beside our own checks by axe-core (accessibility), html-validate (HTML) and pdftotext.
const { execFileSync } = require("node:child_process");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { chromium } = require("playwright-core");
const axeSource = require("axe-core").source;
const { HtmlValidate } = require("html-validate");

const [program, corpus, browserFile, pdftotext] = process.argv.slice(2);
for (const [what, file] of Object.entries({ chromium: browserFile, pdftotext }))
  if (!file || file.endsWith("-NOTFOUND")) {
    console.log(`skipped: ${what} was not found when the build was configured`);
    process.exit(0);
  }

const patience = 5 * 60 * 1000;  // ends what hangs, however busy the machine is
let checks = 0;
let failures = 0;
function check(what, sound, found) {
  checks += 1;
  if (sound) return;
  failures += 1;
  console.error(`FAILED: ${what}${found === undefined ? "" : `\n  found: ${JSON.stringify(found).slice(0, 1500)}`}`);
}
const sorted = (values) => JSON.stringify([...values].sort());
const folder = fs.mkdtempSync(path.join(os.tmpdir(), "insideline-pages-"));

function written(score, changes) {
  const name = path.basename(score).replace(/\.[a-z]+$/, "");
  const page = path.join(folder, `${name}.html`);
  const options = changes ? ["--changes", changes] : [];
  const output = { encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "pipe"] };
  const printed = execFileSync(program, ["analyze", score, ...options, "--html", page, "--json", "-"], output);
  const summary = () => execFileSync(program, ["analyze", score, ...options, "--details"], output);
  return { name, page, analysis: JSON.parse(printed), summary, html: fs.readFileSync(page, "utf8") };
}

/// Opens a page and keeps whatever it complains of or asks the network for. A tab costs more than what is looked at in it,
/// so one goes from page to page where nothing of a page stays behind: visit() opens the next.
async function opened(browser, page, settings = {}, prepare = async () => {}) {
  const context = await browser.newContext(settings);
  context.setDefaultTimeout(patience);
  const tab = await context.newPage();
  const complaints = [];
  tab.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  tab.on("pageerror", (error) => complaints.push(error.message));
  tab.on("dialog", (dialog) => { complaints.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
  let visited = page;
  tab.on("request", (request) => { if (request.url() !== `file://${visited}`) complaints.push(`asks for ${request.url()}`); });
  const visit = async (next) => {
    complaints.length = 0;
    visited = next;
    await tab.goto(`file://${next}`);
  };
  await prepare(tab);
  await visit(page);
  return { context, tab, complaints, visit };
}

const desktop = { viewport: { width: 1280, height: 900 } };
const telephone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };
const pageOverhang = (tab) => tab.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

async function loadsAlone({ tab, complaints }, piece) {
  await tab.waitForTimeout(200);
  check(`${piece.name}: loads without a complaint and without the network`, complaints.length === 0, complaints);
  const ran = await tab.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "window.intruder = true";
    document.body.append(script);
    script.remove();
    return window.intruder === true;
  });
  check(`${piece.name}: a foreign script does not run`, !ran);
  check(`${piece.name}: no part of the page hangs over its edge`, (await pageOverhang(tab)) <= 0);
}

const shownDegree = (degree) => degree.replaceAll("b", "♭").replaceAll("#", "♯");

/// Everything the analysis says of a note, as the page must say it.
function saidOf(analysis, note) {
  const sure = Math.round(note.confidence * 100);
  const parts = [note.name, `bar ${note.bar}`, note.role, note.reason];
  if (sure < 100) parts.push(`${sure} % sure`);
  if (note.figure !== "none") parts.push(note.figure);
  if (note.placement !== "in place") parts.push(note.placement);
  if (note.degree && note.governor !== null)
    parts.push(`${shownDegree(note.degree)} of ${analysis.chords[note.governor].symbol}`);
  return parts;
}

async function walksByKeyboard(tab, piece) {
  for (let presses = 0; presses < 60; presses += 1) {
    await tab.keyboard.press("Tab");
    if (await tab.evaluate(() => document.activeElement.matches(".note"))) break;
  }
  const reached = [];
  for (const note of piece.analysis.notes) {
    const { id, tip, label } = await tab.evaluate(() => ({
      id: document.activeElement.id,
      tip: document.getElementById("tip").hidden ? "" : document.getElementById("tip").innerText,
      label: document.activeElement.getAttribute("aria-label") || "",
    }));
    reached.push(id);
    const missing = saidOf(piece.analysis, note).filter((part) => !tip.includes(part));
    check(`${piece.name}: the tip of note ${note.index} says what the analysis says`, missing.length === 0, { missing, tip });
    check(`${piece.name}: note ${note.index} is named for a screen reader`,
      label.includes(note.name) && label.includes(note.role) && label.includes(note.reason), label);
    await tab.keyboard.press("ArrowRight");
  }
  check(`${piece.name}: the arrow keys reach every note in order`,
    JSON.stringify(reached) === JSON.stringify(piece.analysis.notes.map((note) => `n${note.index}`)), reached);
  if (piece.analysis.choruses > 1) {
    await tab.keyboard.press("Home");
    await tab.keyboard.press("ArrowDown");
    const id = await tab.evaluate(() => Number(document.activeElement.id.slice(1)));
    const moved = piece.analysis.notes[id].bar - piece.analysis.notes[0].bar;
    const form = piece.analysis.bars / piece.analysis.choruses;
    check(`${piece.name}: down goes to the same place of the next chorus`, Math.abs(moved - form) <= 1, moved);
    await tab.keyboard.press("ArrowUp");
    check(`${piece.name}: and up comes back`, (await tab.evaluate(() => document.activeElement.id)) !== `n${id}`);
  }
  await tab.keyboard.press("Escape");
  check(`${piece.name}: Escape hides the tip`, await tab.evaluate(() => document.getElementById("tip").hidden));
}

async function worksByPointer(tab, piece) {
  await tab.locator("#n4").scrollIntoViewIfNeeded();
  await comesToRest(tab);
  await tab.locator("#n4 use").hover();
  const tip = await tab.locator("#tip").innerText();
  check(`${piece.name}: pointing at a note shows what it is`,
    saidOf(piece.analysis, piece.analysis.notes[4]).every((part) => tip.includes(part)), tip);
  await tab.mouse.move(5, 5);
  check(`${piece.name}: and pointing elsewhere hides it`, await tab.locator("#tip").isHidden());

  for (const [part, place] of Object.entries({ lanes: ".lanes", degrees: ".note text", brackets: ".brackets", connections: ".connections" })) {
    const shown = () => tab.evaluate((selector) =>
      getComputedStyle(document.querySelector(`#score ${selector}`)).display !== "none", place);
    const box = tab.locator(`input[data-part="${part}"]`);
    check(`${piece.name}: ${part} are shown at first`, await shown());
    await box.uncheck();
    check(`${piece.name}: ${part} can be hidden`, !(await shown()));
    await box.check();
    check(`${piece.name}: and shown again`, await shown());
  }
  if (piece.analysis.choruses > 1) {
    const order = () => tab.evaluate(() => [...document.querySelectorAll(".system")].map((s) => Number(s.dataset.played)));
    const before = await order();
    await tab.locator('input[data-part="stacked"]').uncheck();
    const after = await order();
    check(`${piece.name}: choruses stand under each other, or in the order they are played`,
      before.some((system, i) => i > 0 && system < before[i - 1]) && after.every((system, i) => system === i), { before, after });
  }
  const summary = tab.locator("#all-notes summary");
  await summary.scrollIntoViewIfNeeded();
  await comesToRest(tab);
  await summary.click();
  await tab.locator("#all-notes tbody tr").first().waitFor();
  const rows = await tab.locator("#all-notes tbody tr").count();
  check(`${piece.name}: the table of notes has every note`, rows === piece.analysis.notes.length, rows);
}

/// Lettering and marks as the browser really sets them must not lie on each other.
async function letteringIsApart({ tab }, piece) {
  const collisions = await tab.evaluate(() => {
    const found = [];
    const systems = document.querySelectorAll(".system");
    for (const system of systems) system.style.contentVisibility = "visible";
    for (const map of document.querySelectorAll(".system svg")) {
      const boxes = [...map.querySelectorAll("text, .note use")].map((element) => {
        const { left, right, top, bottom } = element.getBoundingClientRect();
        const mark = element.tagName === "use";
        // The glyphs themselves: without the space above and below them, and a mark without the room for a finger.
        const trim = mark ? (right - left - 10) / 2 : 1;
        const lines = mark ? (bottom - top - 10) / 2 : (bottom - top) * 0.22;
        return { left: left + trim, right: right - trim, top: top + lines, bottom: bottom - lines,
          what: mark ? `mark ${element.parentNode.id}` : element.textContent, mark };
      });
      boxes.forEach((a, i) => boxes.slice(i + 1).forEach((b) => {
        if (a.mark && b.mark) return;
        if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom) found.push(`${a.what} on ${b.what}`);
      }));
    }
    for (const system of systems) system.style.contentVisibility = "";
    return found;
  });
  check(`${piece.name}: no lettering lies on other lettering or on a mark`, collisions.length === 0, collisions);
}

/// Keeps what the page sounds: the frequencies it asks for and how loud it gets.
const listen = () => {
  window.heard = { tones: [], peak: 0 };
  const Oscillator = window.OscillatorNode;
  window.OscillatorNode = class extends Oscillator {
    constructor(context, options) {
      super(context, options);
      window.heard.tones.push({ type: options.type, hertz: options.frequency });
    }
  };
  const connect = AudioNode.prototype.connect;
  AudioNode.prototype.connect = function connected(target, ...rest) {
    if (target instanceof AudioDestinationNode) {
      const meter = new AnalyserNode(this.context);
      connect.call(this, meter);
      setInterval(() => {
        const wave = new Float32Array(meter.fftSize);
        meter.getFloatTimeDomainData(wave);
        window.heard.peak = Math.max(window.heard.peak, ...wave.map(Math.abs));
      }, 20);
    }
    return connect.call(this, target, ...rest);
  };
  window.litNotes = [];
  document.addEventListener("DOMContentLoaded", () =>
    new MutationObserver((changes) => {
      // A busy machine lights and darkens several notes before anyone is told: what came after each change is read
      // from the next change of the same note.
      changes.forEach(({ target, oldValue }, i) => {
        const next = changes.slice(i + 1).find((change) => change.target === target);
        const isLit = (classes) => /\blit\b/.test(classes ?? "");
        const now = next ? next.oldValue : target.getAttribute("class");
        if (target.matches(".note") && isLit(now) && !isLit(oldValue)) window.litNotes.push(target.id);
      });
    }).observe(document.getElementById("score"),
      { attributes: true, attributeFilter: ["class"], attributeOldValue: true, subtree: true }));
};

async function sounds(browser, piece) {
  const { context, tab, complaints } = await opened(browser, piece.page, desktop, (page) => page.addInitScript(listen));
  const fill = (id, value) => tab.evaluate(([name, text]) => {
    const input = document.getElementById(name);
    input.value = text;
    input.dispatchEvent(new Event("input"));
  }, [id, value]);
  check(`${piece.name}: listening starts quiet`, Number(await tab.locator("#volume").inputValue()) <= 20);
  await fill("tempo", "320");
  await tab.locator("#play").click();
  // A busy machine takes its time to open the sound.
  await tab.waitForFunction(() => document.getElementById("play").innerText === "Stop", null, { timeout: patience }).catch(() => {});
  check(`${piece.name}: the button then stops`, (await tab.locator("#play").innerText()) === "Stop");
  await tab.waitForFunction(() => window.litNotes.length >= 8, null, { timeout: patience });
  const { lit, heard } = await tab.evaluate(() => ({ lit: window.litNotes, heard: window.heard }));
  check(`${piece.name}: notes light up in order`, lit.slice(0, 8).every((id, i) => id === `n${i}`), lit);
  check(`${piece.name}: it can be heard, and not loud`, heard.peak > 0.001 && heard.peak < 0.5, heard.peak);
  const hertz = (midi) => 440 * 2 ** ((midi - 69) / 12);
  const struck = heard.tones.map((tone) => tone.hertz);
  const missing = piece.analysis.notes.slice(0, 8).filter((note) => !struck.some((f) => Math.abs(f - hertz(note.midi)) < 0.01));
  check(`${piece.name}: the notes sound at their pitches`, missing.length === 0, missing);
  const tones = piece.analysis.chords[0].tones.map((tone) => tone.pitch_class);
  const soft = heard.tones.filter((tone) => tone.type === "sine").slice(0, tones.length)
    .map((tone) => Math.round(69 + 12 * Math.log2(tone.hertz / 440)) % 12);
  check(`${piece.name}: under the tones of the first chord`, sorted(soft) === sorted(tones), { soft, tones });
  await tab.keyboard.press("p");
  check(`${piece.name}: the key P stops`, (await tab.locator("#play").innerText()) === "Play");
  check(`${piece.name}: and nothing stays lit`, (await tab.locator(".lit").count()) === 0);

  await fill("from-bar", "2");
  await fill("to-bar", "2");
  await tab.locator("#loop").check();
  await tab.evaluate(() => { window.litNotes = []; });
  await tab.locator("#play").click();
  const inBar = piece.analysis.notes.filter((note) => note.bar === 2).map((note) => `n${note.index}`);
  await tab.waitForFunction((wanted) => window.litNotes.length >= wanted, 2 * inBar.length + 1, { timeout: patience });
  const again = await tab.evaluate(() => window.litNotes);
  check(`${piece.name}: a loop plays its bars and no other, again and again`,
    again.every((id, i) => id === inBar[i % inBar.length]), { again, inBar });
  await tab.keyboard.press("Escape");
  check(`${piece.name}: Escape stops as well`, (await tab.locator("#play").innerText()) === "Play");
  check(`${piece.name}: playing brings no complaint`, complaints.length === 0, complaints);
  await context.close();
}

/// Until nothing scrolls: a tip goes when the map under it moves, and a busy machine tells of that late.
const comesToRest = (tab) => tab.evaluate(async () => {
  const place = () => [window.scrollX, window.scrollY, ...[...document.querySelectorAll("#score, .scroll")].map((part) => part.scrollLeft)].join();
  for (let still = 0, last = ""; still < 5; last = place()) {
    await new Promise(requestAnimationFrame);
    still = place() === last ? still + 1 : 0;
  }
});

async function fitsTheTelephone(browser, piece) {
  const { context, tab } = await opened(browser, piece.page, telephone);
  check(`${piece.name}: at 360 pixels the page does not scroll sideways`, (await pageOverhang(tab)) <= 0, await pageOverhang(tab));
  // A scroll that takes its time would still be under way when the finger comes down.
  await tab.evaluate(() => { document.documentElement.style.scrollBehavior = "auto"; });
  await tab.locator("#n3").scrollIntoViewIfNeeded();
  await comesToRest(tab);
  await tab.locator("#n3 use").tap();
  const tip = await tab.locator("#tip").innerText();
  check(`${piece.name}: a tap shows what a note is`,
    saidOf(piece.analysis, piece.analysis.notes[3]).every((part) => tip.includes(part)), tip);
  const box = await tab.locator("#tip").boundingBox();
  check(`${piece.name}: the tip is all on the screen`, box.x >= 0 && box.x + box.width <= 360, box);
  await context.close();
}

// WCAG 2.2, "relative luminance" and "contrast ratio".
function luminance([red, green, blue]) {
  const linear = [red, green, blue].map((value) => value / 255)
    .map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4));
  return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
}
function contrast(a, b) {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

async function isReadable(tab, colorScheme) {
  const colours = await tab.evaluate(() => {
    const probe = document.createElement("i");
    document.body.append(probe);
    const names = ["ground", "panel", "ink", "soft", "c-text", "t-text", "n-text", "o-text", "s2-text", "c", "t", "o", "s2", "focus"];
    return Object.fromEntries(names.map((name) => {
      probe.style.color = `var(--${name})`;
      return [name, getComputedStyle(probe).color.match(/\d+/g).slice(0, 3).map(Number)];
    }));
  });
  for (const ground of ["ground", "panel"]) {
    for (const ink of ["ink", "soft", "c-text", "t-text", "n-text", "o-text", "s2-text"]) {
      const ratio = contrast(colours[ink], colours[ground]);
      check(`${colorScheme}: ${ink} on ${ground} is legible`, ratio >= 4.5, ratio);
    }
    // Marks and their outlines: the purple fill is light, and its outline (n-text, above) carries it.
    for (const fill of ["c", "t", "o", "s2", "focus"]) {
      const ratio = contrast(colours[fill], colours[ground]);
      check(`${colorScheme}: ${fill} on ${ground} is seen`, ratio >= 3, ratio);
    }
  }
  check(`${colorScheme}: the ground is ${colorScheme}`, (luminance(colours.ground) > 0.5) === (colorScheme === "light"));
  await tab.locator("#theme").click();
  const turned = await tab.evaluate(() => getComputedStyle(document.documentElement).backgroundColor.match(/\d+/g).map(Number));
  check(`${colorScheme}: the button turns it`, (luminance(turned) > 0.5) === (colorScheme === "dark"), turned);
}

async function isAccessible(tab, what) {
  await tab.evaluate(() => { for (const details of document.querySelectorAll("details")) details.open = true; });
  const allNotes = tab.locator("#all-notes");
  if ((await allNotes.count()) > 0) await allNotes.locator("tbody tr").first().waitFor();
  await tab.evaluate(axeSource);
  // What passes is only counted: describing each of its parts takes longer than judging it.
  const { violations, passes } = await tab.evaluate(() => window.axe.run(document, { resultTypes: ["violations"], selectors: false }));
  const found = violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(" | ")}`);
  check(`${what}: axe-core finds no fault`, found.length === 0, found);
  check(`${what}: axe-core found something to check`, passes.length > 15, passes.length);
}

/// The longer piece by daylight; every kind of part is on the short page as well, which takes axe-core a third of the time.
async function isForEverybody(browser, piece, short) {
  const light = await opened(browser, piece.page, desktop);
  await isAccessible(light.tab, `${piece.name}, light`);
  await isReadable(light.tab, "light");
  await light.context.close();
  const dark = await opened(browser, short.page, { ...desktop, colorScheme: "dark" });
  await isAccessible(dark.tab, `${short.name}, dark`);
  await isReadable(dark.tab, "dark");
  await dark.context.close();
  const small = await opened(browser, short.page, telephone);
  await isAccessible(small.tab, `${short.name}, telephone`);
  await small.context.close();
}

const validator = new HtmlValidate({ extends: ["html-validate:recommended"], rules: {
  "long-title": "off", // titles are the users'
  "no-inline-style": "error",
  "tel-non-breaking": "off", // dates and figures are no telephone numbers
  "prefer-native-element": "off", // a list of notes drawn in SVG has no element of its own
  "no-redundant-role": "error",
} });

async function isSoundHtml(piece) {
  const report = await validator.validateString(piece.html);
  const messages = report.results.flatMap((result) => result.messages)
    .map(({ ruleId, message, line, column }) => `${ruleId}: ${message} (${line}:${column})`);
  check(`${piece.name}: html-validate accepts the page`, report.valid, [...new Set(messages)].slice(0, 10));
}

async function noticesUnsoundHtml(piece) {
  const spoilt = await validator.validateString(piece.html.replace("</h1>", ""));
  check(`${piece.name}: html-validate notices a fault`, !spoilt.valid);
}

async function printsWell({ tab }, piece) {
  const pdf = path.join(folder, `${piece.name}.pdf`);
  await tab.pdf({ path: pdf, preferCSSPageSize: true });
  const text = execFileSync(pdftotext, ["-layout", pdf, "-"], { encoding: "utf8" });
  const words = text.replace(/\s+/g, " ");
  for (const symbol of new Set(piece.analysis.chords.map((chord) => chord.symbol)))
    check(`${piece.name}: the print has ${symbol}`, words.includes(symbol));
  const heard = piece.summary().match(/\d+ of \d+ notes \(\d+ %\)/)[0];
  check(`${piece.name}: the print has the summary`, words.includes(heard), heard);
  for (const control of ["Again and again", "Dark page", "choruses under each other"])
    check(`${piece.name}: the print leaves out "${control}"`, !words.includes(control));
  const pages = text.split("\f").filter((page) => page.trim() !== "");
  check(`${piece.name}: the print wastes no paper`, pages.length <= 3 + Math.ceil(piece.analysis.bars / 4), pages.length);
}

/// The summary of the page and of the terminal are the same words.
function saysTheSame(piece) {
  const plain = piece.html.replace(/<[^>]+>/g, " ").replaceAll("&quot;", '"').replaceAll("&#39;", "'").replaceAll("&amp;", "&")
    .replaceAll("&gt;", ">").replaceAll("&lt;", "<").replace(/\s+/g, " ");
  const sentences = piece.summary().split("\nBars to look at")[0].split("\nA bar to look at")[0].split("\n")
    .filter((line) => /^ {2}[A-Z0-9].*[.,;:]?/.test(line) && !/[█▓▒░]/.test(line) && !/ {3,}/.test(line.trim()));
  check(`${piece.name}: there is a summary to compare`, sentences.length >= 8, sentences.length);
  for (const line of sentences) check(`${piece.name}: the page says "${line.trim()}"`, plain.includes(line.trim().replace(/\s+/g, " ")));
}

async function showsAnyTitle(browser) {
  const titles = {
    markup: "</title></h1><script>alert(1)</script><img src=x onerror=alert(2)>",
    quotes: `"Quay" & 'Dock' \\" \\\\ #(system "ls") \${x} %s`,
    emoji: "Möwe 🎷👩‍🎤 夜の港",
    endless: "Quay".repeat(1250),
  };
  let place;
  for (const [name, title] of Object.entries(titles)) {
    const score = path.join(folder, `${name}.musicxml`);
    fs.writeFileSync(score, generatedScore(2, title));
    const { page } = written(score);
    if (place) await place.visit(page);
    else place = await opened(browser, page, telephone);
    const { tab, complaints } = place;
    check(`title with ${name}: shown as text`, (await tab.locator("h1").textContent()) === title);
    check(`title with ${name}: nothing runs`, complaints.length === 0, complaints);
    check(`title with ${name}: the page keeps its width`, (await pageOverhang(tab)) <= 0);
  }
  await place.context.close();
}

function generatedScore(bars, title) {
  const quoted = title.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
  const steps = ["C", "D", "E", "F", "G", "A", "B", "G"];
  const roots = ["C", "F", "G", "A"];
  const measures = Array.from({ length: bars }, (unused, bar) => {
    const attributes = bar ? "" : "<attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";
    const harmony = `<harmony><root><root-step>${roots[bar % 4]}</root-step></root><kind>major-seventh</kind></harmony>`;
    const notes = steps.map((unused2, i) => `<note><pitch><step>${steps[(i * 3 + bar) % 8]}</step><octave>${4 + (i % 2)}</octave></pitch>` +
      "<duration>1</duration><type>eighth</type></note>").join("");
    return `<measure number="${bar + 1}">${attributes}${harmony}${notes}</measure>`;
  });
  return '<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0">' +
    `<work><work-title>${quoted}</work-title></work>` + '<part-list><score-part id="P1"><part-name>Horn</part-name>' +
    `</score-part></part-list><part id="P1">${measures.join("")}</part></score-partwise>`;
}

async function staysSmooth(browser) {
  const score = path.join(folder, "long.musicxml");
  fs.writeFileSync(score, generatedScore(2000, "Long"));
  const piece = written(score);
  check("2,000 bars: under 5 MB", piece.html.length < 5e6, piece.html.length);
  const { context, tab, complaints } = await opened(browser, piece.page, desktop);
  check("2,000 bars: loads without a complaint", complaints.length === 0, complaints);
  check("2,000 bars: every note is there", (await tab.evaluate(() => document.querySelectorAll(".note[role=option]").length)) === piece.analysis.notes.length);
  // What a frame costs is what must be laid out and what must be run for it: both are counted, as a clock would
  // measure the machine. Of the systems only those near the window are laid out, and scrolling runs none of our code.
  const counted = await tab.evaluate(async () => {
    document.documentElement.style.scrollBehavior = "auto";
    const systems = [...document.querySelectorAll(".system")];
    const laidOut = () => systems.filter((system) => system.firstElementChild.checkVisibility({ contentVisibilityAuto: true })).length;
    const changes = new MutationObserver(() => {});
    changes.observe(document.documentElement, { attributes: true, childList: true, subtree: true, characterData: true });
    let most = 0;
    let altered = 0;
    for (let i = 0; i < 30; i += 1) {
      window.scrollBy(0, 700);
      for (let frame = 0; frame < 2; frame += 1) await new Promise(requestAnimationFrame);
      most = Math.max(most, laidOut());
      altered += changes.takeRecords().length;
    }
    return { systems: systems.length, most, altered, scrolled: window.scrollY };
  });
  console.log(`2,000 bars: ${piece.html.length} bytes; at most ${counted.most} of ${counted.systems} systems laid out while scrolling`);
  check("2,000 bars: the page scrolls", counted.scrolled > 10000, counted);
  check("2,000 bars: only what is near the window is laid out", counted.most > 0 && counted.most <= 40 && counted.systems >= 400, counted);
  check("2,000 bars: scrolling changes nothing in the page", counted.altered === 0, counted);
  await context.close();
  await cutsWhatIsNear(browser, piece);
}

/// On a telephone each line of the map becomes several rows: made when it comes near, and where a bar is asked for.
async function cutsWhatIsNear(browser, piece) {
  const { context, tab } = await opened(browser, piece.page, telephone);
  const rows = () => tab.evaluate(() => document.querySelectorAll("#score svg.map").length);
  const systems = await tab.evaluate(() => document.querySelectorAll(".system").length);
  const before = await rows();
  check("2,000 bars: a telephone cuts no row before it is near", before < systems + 60, { before, systems });
  const last = piece.analysis.notes.length - 1;
  // A scroll that takes its time passes more rows, the slower the machine.
  await tab.evaluate(() => { document.documentElement.style.scrollBehavior = "auto"; });
  await tab.locator("#n0").focus();
  await tab.setViewportSize({ width: 420, height: 720 });
  await tab.setViewportSize(telephone.viewport);
  await comesToRest(tab);
  check("2,000 bars: a note whose row is cut keeps the focus", (await tab.evaluate(() => document.activeElement.id)) === "n0");
  await tab.keyboard.press("End");
  await comesToRest(tab);
  check("2,000 bars: the last note can be walked to", (await tab.evaluate(() => document.activeElement.id)) === `n${last}`);
  const across = await tab.evaluate((index) => document.getElementById(`n${index}`).closest("svg").viewBox.baseVal.width, last);
  check("2,000 bars: in a row that a telephone can show", across < 500, across);
  check("2,000 bars: and the rest still waits", (await rows()) < 2 * systems, await rows());
  check("2,000 bars: nothing hangs over the edge of a telephone", (await pageOverhang(tab)) <= 0);
  await context.close();
}

/// The practice log of a class, one of whom has a name that a careless page would run.
function writtenLog(player) {
  const place = fs.mkdtempSync(path.join(folder, "log-"));
  const run = (...options) => execFileSync(program, options, { cwd: place, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
  const chart = path.join(corpus, "lantern-street.changes");
  for (const sheet of ["sheet.musicxml", "slow.mid"])
    run("drill", "--changes", chart, "--arpeggios", "down", "--range", "F3-C6", "-o", sheet);
  const odd = "<img src=x onerror=alert(1)> \"Red\" O'Brine of the long far away harbour";
  const takes = [["Anke", "slow.mid", "2026-11-20"], ["Anke", "sheet.musicxml", "2026-11-21"], [odd, "slow.mid", "2026-11-22"]];
  for (const [name, take, day] of takes)
    run("assess", take, "--against", "sheet.musicxml", "--log", "class.log", "--player", name, "--day", day);
  const page = path.join(place, "log.html");
  const whose = player === undefined ? [] : ["--player", player];
  const said = run("log", "class.log", "--html", page, ...whose);
  const shown = player === undefined ? takes : takes.filter(([name]) => name === player);
  return { name: player === undefined ? "the log of a class" : "the log of one player", page, said, takes: shown,
    html: fs.readFileSync(page, "utf8") };
}

async function showsTheLog(browser) {
  for (const log of [writtenLog(), writtenLog("Anke")]) {
    const wide = await opened(browser, log.page, desktop);
    await loadsAlone(wide, log);
    await isAccessible(wide.tab, log.name);
    await wide.context.close();
    await isSoundHtml(log);
    const { context, tab, complaints } = await opened(browser, log.page, telephone);
    check(`${log.name}: nothing in it runs`, complaints.length === 0, complaints);
    check(`${log.name}: fits a telephone`, (await pageOverhang(tab)) <= 0, await pageOverhang(tab));
    const text = await tab.evaluate(() => document.body.innerText.replace(/\s+/g, " "));
    for (const [name, take, day] of log.takes) {
      check(`${log.name}: names ${name}`, text.includes(name));
      const rows = tab.locator("tr", { hasText: day }).filter({ hasText: take });
      check(`${log.name}: has the take of ${day}`, (await rows.count()) === 1, await rows.count());
    }
    const ways = await tab.locator("svg").count();
    check(`${log.name}: has its plots`, ways >= 2, ways);
    await context.close();
  }
}

/// Nothing runs sideways between the smallest telephone and a desk.
async function keepsItsWidth(browser, page, name) {
  const { context, tab } = await opened(browser, page, { viewport: { width: 320, height: 800 } });
  for (const width of [320, 390, 768, 1280]) {
    await tab.setViewportSize({ width, height: 800 });
    check(`${name}: keeps its width at ${width}`, (await pageOverhang(tab)) <= 0, await pageOverhang(tab));
  }
  await context.close();
}

/// Folded parts opened, as axe-core judges what it sees.
async function isAccessibleUnfolded(tab, what) {
  await tab.evaluate(() => { for (const details of document.querySelectorAll("details")) details.open = true; });
  await tab.evaluate(axeSource);
  const { violations, passes } = await tab.evaluate(() => window.axe.run(document, { resultTypes: ["violations"], selectors: false }));
  check(`${what}: axe-core finds no fault`, violations.length === 0,
    violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(" | ")}`));
  check(`${what}: axe-core found something to check`, passes.length > 15, passes.length);
}

function runIn(place, ...options) {
  return execFileSync(program, options, { cwd: place, encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "pipe"] });
}

/// Two choruses, and three solos, bar for bar.
async function setsSideBySide(browser) {
  const place = fs.mkdtempSync(path.join(folder, "compare-"));
  const street = path.join(corpus, "lantern-street.musicxml");
  const two = [street, "--choruses", "--resamples", "100"];
  const file = JSON.parse(runIn(place, "compare", ...two, "--html", "choruses.html", "--json", "-"));
  runIn(place, "compare", street, path.join(corpus, "net-menders.musicxml"), path.join(corpus, "ropewalk.musicxml"),
    "--resamples", "100", "--html", "three.html");
  const choruses = { name: "two choruses", page: path.join(place, "choruses.html") };
  choruses.html = fs.readFileSync(choruses.page, "utf8");
  const three = path.join(place, "three.html");
  await keepsItsWidth(browser, choruses.page, choruses.name);
  await keepsItsWidth(browser, three, "three solos");
  await isSoundHtml(choruses);
  const light = await opened(browser, choruses.page, desktop, (page) => page.addInitScript(() => {
    window.struck = [];
    const Oscillator = window.OscillatorNode;
    window.OscillatorNode = class extends Oscillator {
      constructor(context, options) {
        super(context, options);
        if (options.type === "triangle") window.struck.push(options.frequency);
      }
    };
  }));
  const { tab, complaints } = light;
  await loadsAlone(light, choruses);
  complaints.length = 0;
  const bars = file.same_bars[0].bars;
  const places = () => tab.evaluate(() => [...document.querySelectorAll(".card")].map((card) => Number(card.dataset.place)));
  const byDifference = await places();
  check("two choruses: the most different bars come first",
    byDifference.length === bars.length && byDifference.every((bar, i) => i === 0 || bars[byDifference[i - 1]].difference >= bars[bar].difference), byDifference);
  const talk = await tab.evaluate(() => [...document.querySelectorAll(".talk-about a")].map((link) => link.textContent));
  check("two choruses: the bars to talk about are those of the file",
    talk.length === 3 && talk.every((name, i) => name.endsWith(` and ${file.same_bars[0].talk_about[i]}`)), talk);
  await tab.locator("[data-order=bars]").click();
  check("two choruses: and there is a way back to the order of the bars",
    (await places()).every((bar, i) => bar === i), await places());
  check("two choruses: which stays in the address", (await tab.evaluate(() => location.hash)).includes("order=bars"));
  check("two choruses: a part of the bars is shown at first", (await tab.locator(".card:visible").count()) === Math.min(12, bars.length));
  await tab.locator("#beside-all").click();
  check("two choruses: and all of them at a touch", (await tab.locator(".card:visible").count()) === bars.length);
  const card = tab.locator('.card[data-place="0"]');
  const counts = (await card.locator(".note[data-note] .other-pitch").count()) / 2;
  check("two choruses: notes of another pitch are framed in both lines",
    counts === bars[0].other_pitch + bars[0].other_pitch_and_role, { counts, bar: bars[0] });
  check("two choruses: listening starts quiet", Number(await tab.locator("#volume").inputValue()) <= 20);
  await card.locator(".hear").nth(1).click();
  await tab.waitForFunction(() => document.querySelector(".card .note.lit"), null, { timeout: patience });
  const playing = await tab.evaluate(() => document.querySelector(".hear[aria-pressed=true]").getAttribute("aria-label"));
  check("two choruses: a line is heard in its bar", playing.startsWith("chorus 2, bars 1 and 17"), playing);
  check("two choruses: and sounds", (await tab.evaluate(() => window.struck.length)) >= 4);
  await tab.keyboard.press("Escape");
  check("two choruses: Escape stops it", (await tab.locator(".hear[aria-pressed=true]").count()) === 0);
  check("two choruses: playing brings no complaint", complaints.length === 0, complaints);
  await isAccessibleUnfolded(tab, "two choruses, light");
  await light.context.close();
  const dark = await opened(browser, three, { ...telephone, colorScheme: "dark" });
  check("three solos: one is beside the first at a time", (await dark.tab.locator(".pair:visible").count()) === 1);
  await dark.tab.locator("#beside-which").selectOption("2");
  check("three solos: and another can be chosen", await dark.tab.locator('.pair[data-pair="2"]').isVisible());
  await isAccessibleUnfolded(dark.tab, "three solos, dark, telephone");
  await dark.context.close();
}

/// A collection of two players over some days, with a page of each solo.
async function showsACollection(browser) {
  const place = fs.mkdtempSync(path.join(folder, "survey-"));
  const solos = ["early-ferry", "fog-signal", "ropewalk", "tide-table"];
  solos.forEach((name, i) => {
    const player = path.join(place, "solos", i % 2 ? "Anke" : "Odd & \"Co\" #1");
    fs.mkdirSync(player, { recursive: true });
    fs.copyFileSync(path.join(corpus, `${name}.musicxml`), path.join(player, `2026-03-0${i + 1} ${name}.musicxml`));
  });
  runIn(place, "survey", "solos", "--html", "all.html", "--pages", "pages");
  const all = { name: "a collection", page: path.join(place, "all.html") };
  all.html = fs.readFileSync(all.page, "utf8");
  await keepsItsWidth(browser, all.page, all.name);
  await isSoundHtml(all);
  const wide = await opened(browser, all.page, desktop);
  await loadsAlone(wide, all);
  const tall = await wide.tab.evaluate(() => document.documentElement.scrollHeight);
  check("a collection: its plots fit a few screens", tall <= 6 * 900, tall);
  const spread = await wide.tab.evaluate(() => document.querySelector("#spread .plots").offsetHeight);
  check("a collection: all main shares are seen at once", spread <= 900, spread);
  check("a collection: one line a player", (await wide.tab.locator("#courses figure").first().locator("path.line").count()) === 4,
    await wide.tab.locator("#courses figure").first().locator("path.line").count());
  const links = await wide.tab.evaluate(() => [...document.querySelectorAll("#solos a")].map((link) => new URL(link.href).pathname));
  check("a collection: every solo has a page that is there", links.length === solos.length && links.every((file) => fs.existsSync(decodeURIComponent(file))), links);
  await isAccessibleUnfolded(wide.tab, "a collection, light");
  await wide.context.close();
  const dark = await opened(browser, all.page, { ...telephone, colorScheme: "dark" });
  await isAccessibleUnfolded(dark.tab, "a collection, dark, telephone");
  await dark.context.close();
  const solo = await opened(browser, links[0], desktop);
  await loadsAlone(solo, { name: "a solo of the collection" });
  await solo.context.close();
}

async function main() {
  const browser = await chromium.launch({ timeout: patience, executablePath: browserFile, args: ["--no-sandbox", "--autoplay-policy=no-user-gesture-required", "--disable-audio-output"] });
  const pieces = fs.readdirSync(corpus).filter((name) => name.endsWith(".musicxml")).sort().map((name) => {
    const score = path.join(corpus, name);
    const changes = score.replace(/\.musicxml$/, ".changes");
    return written(score, fs.existsSync(changes) ? changes : undefined);
  });
  check("there are demo pieces to look at", pieces.length >= 8, pieces.length);
  const main = pieces.find((piece) => piece.name === "lantern-street");
  const byLength = [...pieces].sort((a, b) => a.analysis.notes.length - b.analysis.notes.length);
  const short = byLength[0];
  const printed = [main, short, byLength.at(-1), pieces.find((piece) => piece.name === "slipway-waltz")];
  const place = await opened(browser, pieces[0].page, desktop);
  for (const piece of pieces) {
    if (piece !== pieces[0]) await place.visit(piece.page);
    await loadsAlone(place, piece);
    await letteringIsApart(place, piece);
    if (printed.includes(piece)) await printsWell(place, piece);
    await isSoundHtml(piece);
    saysTheSame(piece);
  }
  await noticesUnsoundHtml(main);
  await place.visit(main.page);
  await walksByKeyboard(place.tab, main);
  await place.visit(main.page);
  await worksByPointer(place.tab, main);
  await place.context.close();
  await fitsTheTelephone(browser, main);
  await isForEverybody(browser, main, short);
  await sounds(browser, main);
  await showsAnyTitle(browser);
  await showsTheLog(browser);
  await setsSideBySide(browser);
  await showsACollection(browser);
  await staysSmooth(browser);
  await browser.close();
}

main().catch((error) => { failures += 1; console.error(error); }).finally(() => {
  fs.rmSync(folder, { recursive: true, force: true });
  console.log(`${checks} checks of pages in the browser, ${failures} failed`);
  process.exit(failures === 0 ? 0 : 1);
});
