// page_of_the_tool.cjs PROGRAM SOURCE CHROMIUM [PAGE]
//
// The page of the tool as a player meets it: from disk, without a network, by pointer and keyboard, on a telephone, in the dark.
// What it shows must be what PROGRAM writes. PAGE is the one file that was built; without it the page of SOURCE is put together
// here and the program answers in place of the module. Accessibility is judged by axe-core, the HTML by html-validate.
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { chromium } = require("playwright-core");
const axeSource = require("axe-core").source;
const { HtmlValidate } = require("html-validate");

const [program, source, browserFile, builtPage] = process.argv.slice(2);
if (!browserFile || browserFile.endsWith("-NOTFOUND")) {
  console.log("skipped: chromium was not found when the build was configured");
  process.exit(0);
}
if (builtPage && !fs.existsSync(builtPage)) {
  console.log(`skipped: ${path.basename(builtPage)} is not built; scripts/browser makes it`);
  process.exit(0);
}
const { loadNative } = require(path.join(source, "tests/browser/stand_in.cjs"));
const { pageWithStandIn } = require(path.join(source, "tests/browser/page_with_stand_in.cjs"));
const native = loadNative(program);
const patience = 5 * 60 * 1000; // ends what hangs, however busy the machine is
const folder = fs.mkdtempSync(path.join(os.tmpdir(), "insideline-desk-"));
const pageFile = path.join(folder, "insideline.html");
if (builtPage) fs.copyFileSync(builtPage, pageFile);
else fs.writeFileSync(pageFile, pageWithStandIn(source, path.join(path.dirname(require.resolve("verovio")), "verovio-toolkit-wasm.js")));

let checks = 0;
let failures = 0;
function check(what, sound, found) {
  checks += 1;
  if (sound) return;
  failures += 1;
  console.error(`FAILED: ${what}${found === undefined ? "" : `\n  found: ${JSON.stringify(found).slice(0, 1500)}`}`);
}

const corpus = (name) => path.join(source, "corpus-demo", name);
const bytesOf = (name) => new Uint8Array(fs.readFileSync(corpus(name)));
const mapped = (files, change) => Object.fromEntries(Object.entries(files).map(([name, content]) => [name, change(content)]));

async function opened(browser, settings = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, acceptDownloads: true, ...settings });
  context.setDefaultTimeout(patience);
  const tab = await context.newPage();
  const complaints = [];
  tab.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  tab.on("pageerror", (error) => complaints.push(error.message));
  tab.on("request", (request) => {
    if (request.url() !== `file://${pageFile}` && !/^(blob|about|data):/.test(request.url())) complaints.push(`asks for ${request.url()}`);
  });
  if (!builtPage)
    await context.exposeFunction("runNative", (args, files) => {
      const result = native.run(args, mapped(files, (list) => Uint8Array.from(list)));
      return { ...result, files: mapped(result.files, (bytes) => Array.from(bytes)) };
    });
  await tab.goto(`file://${pageFile}`);
  await tab.locator("#bench").waitFor();
  return { context, tab, complaints };
}

const frameOf = (tab, part) => tab.frameLocator(`#${part}-result iframe`);
const textOf = (tab, id) => tab.locator(`#${id}`).innerText();
const srcdocOf = (tab, part) => tab.locator(`#${part}-result iframe`).evaluate((frame) => frame.srcdoc);
async function saysSoon(tab, id, words) {
  await tab.waitForFunction(([place, text]) => document.getElementById(place).textContent.includes(text), [id, words], { timeout: patience });
}
async function saved(tab, press) {
  const [download] = await Promise.all([tab.waitForEvent("download"), press()]);
  return { name: download.suggestedFilename(), bytes: fs.readFileSync(await download.path()) };
}
const button = (tab, part, name) => tab.locator(`#${part}`).getByRole("button", { name, exact: true });

async function hasNoBarrier(tab, where) {
  for (const frame of tab.frames()) {
    // The policy of the page lets no foreign script in; the tool of the browser puts it in from outside.
    await frame.evaluate(axeSource).catch(() => {});
  }
  const found = await tab.evaluate(async () => {
    const { violations } = await window.axe.run(document, { iframes: false });
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 90)).join(" | ")}`);
  });
  check(`${where}: nothing bars anyone (axe)`, found.length === 0, found);
}
const overhang = (tab) => tab.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

async function analysesTheExample(tab) {
  await tab.locator("#example").click();
  await frameOf(tab, "solo").locator("#n0").waitFor();
  const files = { "lantern-street.musicxml": bytesOf("lantern-street.musicxml"), "lantern-street.changes": bytesOf("lantern-street.changes") };
  const args = ["analyze", "lantern-street.musicxml", "--changes=lantern-street.changes"];
  const wanted = native.run([...args, "--html=page.html", "--json=solo.json", "--csv=solo.csv", "--annotated=labelled.musicxml"], files);
  check("the page in the frame is the program's, byte for byte",
    Buffer.from(await srcdocOf(tab, "solo")).equals(Buffer.from(wanted.files["page.html"])));
  check("the summary's first sentences stand above it", (await textOf(tab, "solo-words")).includes("137 of 167 notes (82 %) are heard as chord tones."));
  for (const [name, file] of [["Save the page", "page.html"], ["Analysis (JSON)", "solo.json"], ["Table (CSV)", "solo.csv"], ["Score with labels", "labelled.musicxml"]]) {
    const got = await saved(tab, () => button(tab, "solo-result", name).click());
    check(`what "${name}" saves is what the program writes`, got.bytes.equals(Buffer.from(wanted.files[file])), got.name);
    check(`and it is called after the solo`, got.name.startsWith("lantern-street"), got.name);
  }
  await tab.locator("#solo-result iframe").scrollIntoViewIfNeeded();
  await frameOf(tab, "solo").locator("#play").click();
  check("the page in the frame plays", (await frameOf(tab, "solo").locator("#play").innerText()) === "Stop");
  await frameOf(tab, "solo").locator("#play").click();
}

async function showsFaultsInPlace(tab) {
  const area = tab.locator("#changes-text");
  await area.fill("key: Eb\n| Ebmaj7 | Cm7 | Fm7é | Bb7 |\n");
  await saysSoon(tab, "changes-said", "cannot be read");
  const wanted = native.run(["changes", "lantern-street.changes"], { "lantern-street.changes": "key: Eb\n| Ebmaj7 | Cm7 | Fm7é | Bb7 |\n" });
  const message = /error: (.*)/.exec(wanted.err)[1];
  check("a chord that cannot be read is told in the words of the program", (await textOf(tab, "changes-said")).includes(message), message);
  check("and marked where it stands", (await tab.locator("#changes-given mark").innerText()) === "Fm7é");
  check("the field is marked as wrong for a screen reader", (await area.getAttribute("aria-invalid")) === "true");
  await tab.locator("#changes-said button").click();
  const chosen = await area.evaluate((text) => text.value.slice(text.selectionStart, text.selectionEnd));
  check("the button goes there", chosen === "Fm7é", chosen);
  check("the page of before says that it is of before", (await textOf(tab, "solo-result")).includes("before the last change"));
  await tab.keyboard.type("Fm7");
  await saysSoon(tab, "solo-words", "8 choruses");
  check("typing on takes the fault away", (await tab.locator("#changes-given mark").count()) === 0 && (await textOf(tab, "changes-said")) === "");
  await saysSoon(tab, "reading", "b3");
  check("the chord at the caret is read", (await textOf(tab, "reading")) === native.run(["chord", "Fm7"]).out.trimEnd(), await textOf(tab, "reading"));
}

async function asksForWhatItNeeds(tab) {
  await tab.locator("#changes-text").fill(fs.readFileSync(corpus("lantern-street.changes"), "utf8"));
  await saysSoon(tab, "solo-words", "2 choruses");
  check("nothing is asked where nothing is in doubt", (await tab.locator("#asked .field").count()) === 0);
  await tab.locator("#solo-settings summary").click();
  await tab.locator("#solo-options-startBar").fill("2");
  await saysSoon(tab, "solo-said", "--start-bar 1");
  await tab.locator("#changes-text").focus();
  await tab.locator("#solo-said button").click();
  await tab.waitForFunction(() => document.getElementById("solo-said").innerText === "");
  check("the button does what the warning advises", (await tab.locator("#solo-options-startBar").inputValue()) === "1");
  check("and the setting stands beside the line now", (await tab.locator("#asked #solo-options-startBar").count()) === 1);
  await tab.locator("#solo-options-startBar").fill("");
  await tab.locator("#solo-settings summary").click();
}

async function takesATypedLine(tab) {
  await tab.locator("#line-typed").check();
  await tab.locator("#changes-text").fill("| Cm7 | F7 | Bbmaj7 | G7b9 |\n");
  await saysSoon(tab, "solo-words", "4 bars of 4/4");
  const area = tab.locator("#line-text");
  await area.fill("L:1/8\nK:Bb\nz c ä g |]\n");
  await saysSoon(tab, "line-said", "neither a note nor a sign");
  check("a sign that is no note is marked in the line", (await tab.locator("#line-given mark").innerText()) === "ä");
  await area.fill("L:1/8\nK:Bb\nM:4/4\n\"Cm7\" z c e g b2 a g | \"F7\" f e c A F2 G A |]\n");
  await tab.locator("#changes-text").fill("");
  await saysSoon(tab, "solo-words", "2 bars of 4/4");
  await tab.locator("#changes-from-score").click();
  await tab.waitForFunction(() => /F7/.test(document.getElementById("changes-text").value));
  check("the chords in the line become changes", /Cm7/.test(await tab.locator("#changes-text").inputValue()));
  await tab.locator("#line-from-file").check();
}

async function choosesAPart(tab) {
  const two = fs.readFileSync(path.join(source, "tests/browser/two_parts.abc"));
  await tab.locator("#changes-text").fill("| Cm7 |\n");
  await tab.locator("#solo-file").setInputFiles({ name: "two.abc", mimeType: "text/plain", buffer: two });
  await tab.locator("#solo-options-part option").nth(2).waitFor({ state: "attached" });
  const names = await tab.locator("#solo-options-part option").allTextContents();
  check("the parts of a score are offered by name", names.includes("1: Horn") && names.includes("2: Bass"), names);
  await tab.locator("#solo-settings summary").click();
  await tab.locator("#solo-options-part").selectOption("2");
  await frameOf(tab, "solo").getByText("part Bass").first().waitFor();
  await tab.locator("#solo-settings summary").click();
}

async function makesSheets(tab) {
  await tab.locator("#solo-file").setInputFiles([corpus("lantern-street.musicxml"), corpus("lantern-street.changes")]);
  await saysSoon(tab, "solo-words", "2 choruses");
  await tab.locator("#tab-sheet").click();
  await tab.locator("#sheet-options-what").selectOption("arpeggios down");
  await tab.locator("#sheet-options-from").selectOption("7");
  await tab.locator("#sheet-options-instrument").selectOption("tenor-sax");
  await saysSoon(tab, "sheet-words", "Arpeggios down");
  const chart = { "lantern-street.changes": bytesOf("lantern-street.changes") };
  const args = ["drill", "--changes=lantern-street.changes", "--arpeggios=down", "--from=7", "--for=tenor-sax"];
  const wanted = native.run([...args, "--output=sheet.musicxml"], chart);
  await tab.waitForFunction((text) => document.getElementById("sheet-plan").textContent === text, wanted.out.trimEnd());
  check("the plan is the program's", true);
  for (const [name, ending] of [["Save as MusicXML", ".musicxml"], ["Save as MIDI", ".mid"]]) {
    const got = await saved(tab, () => button(tab, "sheet-result", name).click());
    const sheet = native.run([...args, `--output=sheet${ending}`], chart).files[`sheet${ending}`];
    check(`"${name}" saves what the program writes`, got.bytes.equals(Buffer.from(sheet)) && got.name.endsWith(ending), got.name);
  }
  await tab.locator("#keep-sheet").click();
  await tab.locator("#kept-sheets li").first().waitFor();
  await tab.locator("#sheet-options-what").selectOption("cell");
  await tab.locator("#sheet-options-cell").fill("7 3 x");
  await saysSoon(tab, "sheet-said", "x");
  check("a cell that is none is told", (await textOf(tab, "sheet-said")).startsWith("Not yet"), await textOf(tab, "sheet-said"));
  await tab.locator("#sheet-options-what").selectOption("gaps");
  await saysSoon(tab, "sheet-plan", "Why this sheet");
}

async function drawsStaves(tab) {
  if (!(await tab.evaluate(() => desk.engraver.isThere()))) return;
  await tab.locator("#sheet-options-what").selectOption("guide-tones two");
  await saysSoon(tab, "sheet-words", "Guide tones");
  await tab.locator("#sheet-staves summary").click();
  const image = tab.locator("#sheet-staves img").first();
  await image.waitFor();
  const drawn = await image.evaluate(async (element) => {
    await element.decode();
    return { width: element.naturalWidth, alt: element.alt };
  });
  check("a sheet is drawn in staff notation", drawn.width > 0 && drawn.alt.startsWith("The sheet in staff notation, page 1 of"), drawn);
  const [page] = await tab.evaluate(() => desk.engraver.draw('<score-partwise><part-list><score-part id="P1"><part-name>x</part-name></score-part></part-list><part id="P1"><measure number="1">' +
      '<attributes><divisions>1</divisions></attributes><harmony><root><root-step>C</root-step></root><kind text="7b9">dominant</kind><degree print-object="no"><degree-value>9</degree-value>' +
      '<degree-alter>-1</degree-alter><degree-type>add</degree-type></degree></harmony><note><pitch><step>C</step><octave>5</octave></pitch><duration>4</duration><type>whole</type></note></measure></part></score-partwise>'));
  const heads = page.match(/class="note"/g) ?? [];
  const chord = /class="harm"[^>]*>([^]*?)<\/g>/.exec(page)?.[1].replace(/<[^>]*>|\s/g, "");
  check("with its notes, and each chord written once", heads.length === 1 && chord === "C7b9", [heads, chord]);
  await tab.evaluate(() => {
    window.print = () => { window.visible = [...document.querySelectorAll("button, textarea, iframe, h1, footer")].filter((one) => one.checkVisibility()).length; };
  });
  await tab.emulateMedia({ media: "print" });
  await tab.evaluate(() => [...document.querySelectorAll("#sheet-staves button")].at(-1).click());
  check("on paper stand the staves alone", (await tab.evaluate(() => window.visible)) === 0, await tab.evaluate(() => window.visible));
  await tab.emulateMedia({ media: "screen" });
  await tab.locator("#sheet-staves summary").click();
}

async function comparesAndAssesses(tab) {
  await tab.locator("#tab-compare").click();
  await tab.locator("#compare-options-how").selectOption("choruses");
  await tab.locator("#do-compare").click();
  await frameOf(tab, "compare").locator("h1").waitFor();
  const files = { "lantern-street.musicxml": bytesOf("lantern-street.musicxml"), "lantern-street.changes": bytesOf("lantern-street.changes") };
  const wanted = native.run(["compare", "lantern-street.musicxml", "--changes=lantern-street.changes", "--choruses", "--html=page.html"], files);
  check("the comparison is the program's", (await srcdocOf(tab, "compare")) === Buffer.from(wanted.files["page.html"]).toString());
  await tab.locator("#compare-options-how").selectOption("");
  await tab.locator("#other-file").setInputFiles(corpus("net-menders.musicxml"));
  await saysSoon(tab, "other-name", "net-menders");
  await tab.locator("#do-compare").click();
  await frameOf(tab, "compare").getByText("net-menders").first().waitFor();

  await tab.locator("#tab-take").click();
  await tab.locator("#take-file").setInputFiles(corpus("lantern-street-take.mid"));
  await saysSoon(tab, "take-words", "167 of 167 notes right. Ready");
  const judged = await saved(tab, () => button(tab, "take-result", "Judgement (JSON)").click());
  const take = native.run(["assess", "lantern-street-take.mid", "--against=lantern-street.musicxml", "--json=take.json"],
    { ...files, "lantern-street-take.mid": bytesOf("lantern-street-take.mid") });
  check("the judgement is the program's", judged.bytes.equals(Buffer.from(take.files["take.json"])));
  const sheets = await tab.locator("#take-options-against option").allInnerTexts();
  check("a sheet that was kept is offered for a take", sheets.some((name) => name.includes("arpeggios-down")), sheets);
}

async function keepsTheWork(tab) {
  const state = () => tab.evaluate(() => JSON.stringify([desk.work, [...desk.files.keys()].filter((id) => desk.filesOf(desk.work).includes(id)).sort()]));
  await tab.locator("#tab-solo").click();
  await tab.locator("#changes-text").pressSequentially("# last word");
  const before = await state();
  await tab.reload();
  await tab.locator("#bench").waitFor();
  check("nothing is lost when the page is loaded again at once", (await state()) === before, [before, await state()]);
  await tab.waitForFunction(() => document.getElementById("solo-name").textContent === "lantern-street.musicxml");

  const file = await saved(tab, () => tab.locator("#work-save").click());
  await tab.locator("#work-new").click();
  await tab.locator("#work-new").click();
  check("a clean desk is clean", (await tab.locator("#changes-text").inputValue()) === "" && (await textOf(tab, "solo-name")) === "No score yet.");
  await tab.locator("#work-back").click();
  await tab.waitForFunction(() => document.getElementById("changes-text").value.includes("# last word"));
  check("and the work before comes back", (await state()) === before);
  await tab.locator("#work-new").click();
  const open = (name, text) => tab.locator("#work-file").setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
  await open(file.name, file.bytes);
  await saysSoon(tab, "work-said", "is open");
  check("a file of work brings all of it back", (await state()) === before);
  for (const [text, words] of [["{", "no file of work"], ['{"format":"other"}', "no file of work"], ['{"format":"insideline-work","version":9}', "version 9"],
    ['{"format":"insideline-work","version":1,"work":{"soloFile":"a"},"files":{}}', "missing in it"]]) {
    await open("odd.insideline", text);
    await saysSoon(tab, "work-said", words);
    check(`a file that holds ${text} is refused and changes nothing`, (await state()) === before);
  }
}

async function worksByKeyboard(tab) {
  await tab.locator("#tab-solo").focus();
  await tab.keyboard.press("ArrowRight");
  check("arrow keys go from tab to tab", await tab.evaluate(() => document.activeElement.id === "tab-sheet" && !document.getElementById("sheet").hidden));
  await tab.keyboard.press("Home");
  await tab.keyboard.press("Tab");
  check("the next stop is the line", await tab.evaluate(() => document.activeElement.closest("#line-given") !== null), await tab.evaluate(() => document.activeElement.id));
  await button(tab, "solo-result", "Fill the window").focus();
  await tab.keyboard.press("Enter");
  check("the page of the solo fills the window", await tab.locator("#solo-result.filling").isVisible());
  await tab.keyboard.press("Escape");
  check("and Escape goes back", (await tab.locator(".filling").count()) === 0);
}

async function standsBadInput(tab) {
  const crashes = path.join(source, "tests/io/crashes");
  const files = ["musicxml", "midi"].flatMap((kind) => fs.readdirSync(path.join(crashes, kind)).slice(0, 6).map((name) => path.join(kind, name)));
  check("there are inputs that once broke something", files.length > 6, files);
  await tab.locator("#changes-text").fill("| Cm7 |\n");
  for (const file of files) {
    const name = path.basename(file);
    await tab.locator("#solo-file").setInputFiles(path.join(crashes, file));
    await saysSoon(tab, "solo-name", name);
    const wanted = native.run(["analyze", name, `--changes=${name.replace(/\.[^.]*$/, "")}.changes`],
      { [name]: new Uint8Array(fs.readFileSync(path.join(crashes, file))), [`${name.replace(/\.[^.]*$/, "")}.changes`]: "| Cm7 |\n" });
    const message = /error: (.*)/.exec(wanted.err)?.[1] ?? null;
    if (message) await saysSoon(tab, "solo", message.slice(0, 60).trim());
  }
}

async function main() {
  const browser = await chromium.launch({ executablePath: browserFile, args: ["--no-sandbox"] });
  const { context, tab, complaints } = await opened(browser);
  await hasNoBarrier(tab, "an empty desk");
  await analysesTheExample(tab);
  await showsFaultsInPlace(tab);
  await hasNoBarrier(tab, "the solo");
  await asksForWhatItNeeds(tab);
  await takesATypedLine(tab);
  await hasNoBarrier(tab, "a typed line");
  await choosesAPart(tab);
  await makesSheets(tab);
  await hasNoBarrier(tab, "a sheet");
  await drawsStaves(tab);
  await comparesAndAssesses(tab);
  await hasNoBarrier(tab, "a take");
  await keepsTheWork(tab);
  await worksByKeyboard(tab);
  await standsBadInput(tab);
  const ran = await tab.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "window.intruder = true";
    document.body.append(script);
    return window.intruder === true;
  });
  check("a foreign script does not run", !ran);
  const refused = complaints.filter((text) => /script/.test(text) && /Content Security Policy/.test(text));
  check("only that script was refused, and nothing else is complained of or asked for", complaints.length === 1 && refused.length === 1, complaints);
  await context.close();

  for (const [width, colorScheme] of [[320, "dark"], [390, "light"], [768, "dark"]]) {
    const small = await opened(browser, { viewport: { width, height: 700 }, colorScheme, reducedMotion: "reduce" });
    await small.tab.locator("#example").click();
    await frameOf(small.tab, "solo").locator("#n0").waitFor();
    for (const part of ["solo", "sheet", "compare", "take"]) {
      await small.tab.locator(`#tab-${part}`).click();
      if (part === "sheet") await frameOf(small.tab, "sheet").locator("#n0").waitFor();
      check(`${width} px, ${colorScheme}, ${part}: nothing hangs over the edge`, (await overhang(small.tab)) <= 0, await overhang(small.tab));
      await hasNoBarrier(small.tab, `${width} px, ${colorScheme}, ${part}`);
    }
    await small.tab.locator("#theme").click();
    const themes = await small.tab.evaluate(() => [...document.querySelectorAll("iframe")].filter((frame) => frame.srcdoc)
      .map((frame) => frame.contentDocument.documentElement.dataset.theme));
    check("the frames turn dark and light with the page", themes.length >= 2 && themes.every((one) => one === (colorScheme === "dark" ? "light" : "dark")), themes);
    await small.context.close();
  }

  const instruments = await (async () => {
    const one = await opened(browser);
    const list = await one.tab.evaluate(() => desk.instruments);
    await one.context.close();
    return list;
  })();
  const help = native.run(["analyze", "--help"]).out.replace(/\s+/g, " ");
  check("the instruments that are offered are those of the command line", help.includes(`reads it: ${instruments.join(", ")} `), instruments);
  const report = await new HtmlValidate({ extends: ["html-validate:standard"], rules: { "require-sri": "off", "long-title": "off" } })
    .validateString(fs.readFileSync(pageFile, "utf8").replace(/(<(script|style)[^>]*>)[\s\S]*?(<\/\2>)/g, "$1$3"));
  check("the HTML is sound", report.valid, report.results.flatMap(({ messages }) => messages.map(({ ruleId, message, line }) => `${line} ${ruleId}: ${message}`)));
  await browser.close();
  fs.rmSync(folder, { recursive: true });
  console.log(`${checks} checks, ${failures} failed`);
  process.exit(failures ? 1 : 0);
}

main().catch((error) => {
  console.error(error);
  process.exit(1);
});
