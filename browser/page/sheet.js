// Practice sheets: what is chosen becomes a sheet at once, to be seen, heard, kept and saved.
"use strict";
desk.startSheet = (tool) => {
  const arpeggios = ({ what = "" }) => what.startsWith("arpeggios");
  const withSolo = ({ what = "" }) => what === "like" || what === "gaps";
  const isLine = ({ what = "" }) => ["", "common-tones"].includes(what);
  const inversions = ["root", "first", "second", "third"].map((name) => [name, name === "root" ? "root position" : `${name} inversion`]);
  const fields = [
    { name: "what", label: "What to practise", choices: [["", "a line to the nearest tones"], ["common-tones", "a line that keeps common tones"],
      ["arpeggios up", "arpeggios up"], ["arpeggios down", "arpeggios down"], ["cell", "a cell of tones"], ["guide-tones one", "guide tones in one voice"],
      ["guide-tones two", "guide tones in two voices"], ["enclose-thirds", "closing in on the thirds"], ["straight-down", "straight down into the next chord"],
      ["gaps", "what my solo lacks"], ["like", "in the manner of my solo"]] },
    { name: "cell", label: "The cell", option: "--cell", text: "3 5 7 9", when: ({ what }) => what === "cell", hint: "Its tones, such as 7 3 5 or 1-2-3-5" },
    { name: "inversion", label: "Every arpeggio in", option: "--inversion", choices: [["", "any inversion"], ...inversions, ["every", "every inversion in turn"]], when: (values) => arpeggios(values) && !values.from },
    { name: "from", label: "Every arpeggio from", option: "--from", choices: [["", "any tone"], ["1", "the root"], ["3", "the third"], ["5", "the fifth"], ["7", "the seventh"]], when: (values) => arpeggios(values) && !values.inversion },
    { name: "instrument", label: "For", choices: [["", "no instrument, C4 to C6"], ...desk.instruments.map((name) => [name, name.replace("-", " ")])] },
    { name: "concert", label: "Written in concert pitch", check: true, when: ({ instrument }) => Boolean(instrument), more: true },
    { name: "rhythm", label: "Rhythm", option: "--rhythm", choices: [["", "eighths"], ["quarters", "quarters"], ["triplets", "triplets"], ["off-beat", "off the beat"], ["three-over-four", "three over four"]],
      when: ({ what = "" }) => !what.startsWith("guide-tones") },
    { name: "tones", label: "Tones a bar", option: "--tones-a-bar", number: [1, 16], when: isLine, more: true },
    { name: "key", label: "In the key of", option: "--key", text: "the chart's", more: true },
    { name: "allKeys", label: "Through all keys", choices: [["", "no"], ["fourths", "round the fourths"], ["half-steps", "by half steps"]] },
    { name: "section", label: "Only the section", option: "--section", text: "all", when: ({ bars }) => !bars, more: true },
    { name: "bars", label: "Only the bars", option: "--bars", text: "all", hint: "Such as 9-16", when: ({ section }) => !section, more: true },
    { name: "choruses", label: "Choruses", option: "--choruses", number: [1, 99], more: true },
    { name: "tempo", label: "Top of the tempo ladder", option: "--tempo", number: [20, 400], more: true },
    { name: "degrees", label: "Degrees under the notes", option: "--degrees", check: true, more: true },
    { name: "countIn", label: "Count-in", option: "--count-in", choices: [["", "one bar"], ["none", "none"], ["two", "two bars"], ["four", "four bars"]], midi: true },
    { name: "chords", label: "Chords", option: "--chords", choices: [["", "held"], ["comped", "struck"], ["none", "none"]], midi: true },
    { name: "swing", label: "Swing, long to short", option: "--swing", number: [1, 3.5], step: 0.1, midi: true },
    { name: "click", label: "Clicks throughout", option: "--click", check: true, midi: true },
    { name: "ladder", label: "All tempos of the ladder, one after the other", check: true, midi: true },
  ];
  const said = desk.byId("sheet-said");
  const chosen = () => {
    desk.changed();
    desk.tell("sheet");
  };
  const form = desk.form(desk.byId("sheet-options"), fields, () => desk.work.sheet, chosen);
  for (const { name, midi, more } of fields) if (midi || more) desk.byId(midi ? "midi-options" : "more-options").append(form.row(name));

  // A chart without a title is called after the solo.
  const chartName = () => `${desk.soloGiven() ? desk.stemOf(desk.soloGiven().name) : "tune"}.changes`;
  const practised = () => {
    const [what, how] = form.value("what").split(" ");
    if (!what || what === "cell") return [];
    if (!withSolo({ what })) return [how ? `--${what}=${how}` : `--${what}`];
    const call = desk.soloCall(true);
    if (!call) throw new Error("that needs a solo on the first page");
    return [`--${what}=${call.args[0]}`];
  };
  const soloFiles = (chart) => {
    const call = desk.soloCall(true);
    if (!call || !withSolo({ what: form.value("what") })) return {};
    return { [call.args[0]]: call.files[call.args[0]], [`${call.stem}.changes`]: chart };
  };
  /// Makes the sheet with `ending`: { status, err, out, files, name }.
  const made = async (ending) => {
    const { text, err } = await desk.chart();
    if (!text) return { status: 1, out: "", err: err || "", files: {}, none: !err };
    const args = ["drill", `--changes=${chartName()}`, ...practised()];
    for (const { name, option, check, midi } of fields) {
      const value = form.value(name);
      if (value !== "" && option && (!midi || ending === ".mid")) args.push(check ? option : `${option}=${value}`);
    }
    const instrument = form.value("instrument");
    if (instrument) args.push(`--${form.value("concert") ? "range" : "for"}=${instrument}`);
    if (form.value("allKeys")) args.push(`--all-keys=${form.value("allKeys")}`);
    if (ending === ".mid" && form.value("ladder")) args.push("--ladder=together");
    if (desk.work.sheet.seed) args.push(`--seed=${desk.work.sheet.seed}`);
    return tool.runAsync([...args, `--output=sheet${ending}`], { ...soloFiles(text), [chartName()]: text });
  };
  const titleOf = (plan) => plan.split("\n")[0].trim();
  const fileName = (plan, ending) => desk.safeName(`${titleOf(plan).replace(/[^\p{L}\p{N}]+/gu, "-").replace(/-$/, "").toLowerCase()}${ending}`);
  const say = (result) => {
    const messages = desk.messagesOf(result.err, [chartName()]);
    if (result.none) messages.push({ kind: "hint", text: "First the changes: type them on the first page, or choose a score that has chords." });
    desk.showMessages(said, messages);
  };
  const saved = (ending, pick) => async () => {
    const result = await made(ending).catch((error) => ({ status: 1, err: `insideline: error: ${error.message}\n` }));
    say(result);
    if (result.status === 0) desk.save(fileName(result.out, pick ? ".txt" : ending), pick ? result.out : result.files[`sheet${ending}`]);
  };
  const page = desk.shown(desk.byId("sheet-result"), "The page of the sheet", [
    ["Save as MusicXML", saved(".musicxml")], ["Save as MIDI", saved(".mid")], ["Save the plan", saved(".musicxml", true)],
  ], "line-map");
  const plan = desk.byId("sheet-plan");
  let last = null; // { title, bytes }
  const staves = desk.staves(desk.byId("sheet-staves"), "The sheet", [["the sheet", async () => ({ score: desk.textOf(last.bytes) })]],
    (err) => desk.showMessages(said, desk.messagesOf(err, [])));

  const show = (result) => {
    if (desk.work.view !== "sheet") return undefined;
    say(result);
    desk.byId("keep-sheet").disabled = result.status !== 0;
    desk.byId("sheet-plan-drawer").hidden = result.status !== 0;
    if (result.status !== 0) return page.outdated();
    last = { title: titleOf(result.plan), bytes: result.sheet };
    plan.textContent = result.plan.trimEnd();
    desk.byId("sheet-words").textContent = last.title;
    desk.byId("sheet-staves").hidden = false;
    staves.outdated();
    return page.show(desk.textOf(result.files["page.html"]));
  };
  const make = desk.latest(async () => {
    const sheet = await made(".musicxml");
    if (sheet.status !== 0) return sheet;
    const bytes = sheet.files["sheet.musicxml"];
    const shown = await tool.runAsync(["analyze", "sheet.musicxml", "--html=page.html"], { "sheet.musicxml": bytes });
    return { ...shown, err: `${sheet.err}${shown.status === 0 ? "" : shown.err}`, plan: sheet.out, sheet: bytes };
  }, show);
  const anew = desk.afterPause(200, () => { if (desk.work.view === "sheet") make(); });
  for (const what of ["sheet", "view", "given"]) desk.on(what, anew);

  desk.byId("another-line").addEventListener("click", () => {
    desk.work.sheet.seed = String(Number(desk.work.sheet.seed ?? 1) + 1);
    desk.changed();
    desk.tell("sheet");
  });
  const listKept = () => {
    desk.byId("kept-sheets").replaceChildren(...desk.work.kept.filter(desk.file).map((id) => {
      const { name, bytes } = desk.file(id);
      const drop = desk.button("Remove", () => {
        desk.work.kept = desk.work.kept.filter((one) => one !== id);
        desk.changed();
        desk.tell("kept");
        desk.byId("keep-sheet").focus();
      });
      drop.setAttribute("aria-label", `Remove ${name}`);
      const save = desk.button("Save", () => desk.save(name, bytes));
      save.setAttribute("aria-label", `Save ${name}`);
      return desk.make("li", {}, `${name} `, save, " ", drop);
    }));
  };
  desk.byId("keep-sheet").addEventListener("click", async () => {
    if (!last) return;
    const id = await desk.keepFile({ name: fileName(last.title, ".musicxml"), bytes: last.bytes });
    desk.work.kept.push(id);
    desk.changed();
    desk.tell("kept");
  });
  desk.on("kept", listKept);
  desk.on("work", () => {
    form.refresh();
    listKept();
  });
};
