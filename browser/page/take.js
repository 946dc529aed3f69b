// A recorded take against the sheet it was played from, or over the changes alone.
"use strict";
desk.startTake = (tool) => {
  const said = desk.byId("take-said");
  const sheets = () => [["solo", "the solo of the first page"], ...desk.work.kept.filter(desk.file).map((id) => [id, desk.file(id).name]),
    ["file", "a sheet from a file"], ["free", "no sheet: free, over the changes"]];
  const fields = [
    { name: "against", label: "Played from", choices: sheets },
    { name: "transpose", option: "--transpose", label: "Move the take by half steps", number: [-60, 60] },
    { name: "barOne", option: "--bar-one", label: "Bar 1 begins after, in quarter notes", text: "best fit", when: ({ barOne }) => barOne !== undefined },
    { name: "startBar", option: "--start-bar", label: "Bar of the take where the changes begin", number: [-999, 9999], when: ({ startBar }) => startBar !== undefined },
    { name: "asWritten", option: "--as-written", label: "Read the page once, without repeats", check: true, when: ({ asWritten }) => asWritten !== undefined },
    { name: "salvage", option: "--salvage", label: "Read what is left of a damaged file", check: true, when: ({ salvage }) => salvage !== undefined },
    { name: "mistake", option: "--one-mistake-in", label: "Ready is fewer than one mistake in", number: [2, 1000], hint: "notes; 8 where nothing is said, 6 in free playing" },
  ];
  const form = desk.form(desk.byId("take-options"), fields, () => desk.work.take, () => {
    desk.changed();
    desk.tell("take");
  });
  const lay = () => {
    form.refresh();
    desk.byId("take-name").textContent = desk.file(desk.work.takeFile)?.name ?? "No take yet.";
    desk.byId("against-file-row").hidden = desk.work.take.against !== "file";
    desk.byId("against-name").textContent = desk.file(desk.work.againstFile)?.name ?? "No sheet yet.";
  };

  const sheet = () => {
    const chosen = form.value("against") || "solo";
    if (chosen !== "solo") return desk.file(chosen === "file" ? desk.work.againstFile : chosen);
    const given = desk.soloGiven();
    return given ? { name: given.name, bytes: given.content } : null;
  };
  /// { args, files } or { hint }.
  const call = async () => {
    const take = desk.file(desk.work.takeFile);
    if (!take) return { hint: "Choose a take." };
    const args = ["assess", take.name];
    const files = { [take.name]: take.bytes };
    if (form.value("against") === "free") {
      const { text } = await desk.chart();
      if (!text) return { hint: "First the changes, on the first page." };
      files["tune.changes"] = text;
      args.push("--free", "--changes=tune.changes");
    } else {
      const against = sheet();
      if (!against) return { hint: "Choose the sheet it was played from, or put a solo on the first page." };
      const name = against.name === take.name ? `sheet-${against.name}` : against.name;
      files[name] = against.bytes;
      args.push(`--against=${name}`);
      // Heard only where the sheet has no chords of its own.
      if (desk.work.changes.trim()) files[`${desk.stemOf(name)}.changes`] = desk.work.changes;
    }
    for (const { name, option, check } of fields)
      if (option && form.value(name) !== "") args.push(check ? option : `${option}=${form.value(name)}`);
    return { args, files };
  };
  const run = async (...written) => {
    const { args, files, hint } = await call();
    if (hint) return { status: 1, err: "", out: "", hint, names: [] };
    return { ...(await tool.runAsync([...args, ...written], files)), names: Object.keys(files) };
  };
  const say = ({ err, hint, names }) => {
    const messages = desk.messagesOf(err, names ?? []);
    if (hint) messages.push({ kind: "hint", text: hint });
    const cure = (settings) => {
      Object.assign(desk.work.take, settings);
      desk.changed();
      desk.tell("take");
    };
    desk.showMessages(said, messages, { cure, cures: fields.map(({ name }) => name), words: desk.soloSettings.words });
  };
  const saved = (name, option) => async () => {
    const result = await run(...(option ? [`${option}=${name}`] : []));
    say(result);
    if (result.status === 0) desk.save(name, option ? result.files[name] : result.out);
  };
  const page = desk.shown(desk.byId("take-result"), "The page of the take", [
    ["Save the page", saved("take.html", "--html")], ["Text", saved("take.txt", "")], ["Judgement (JSON)", saved("take.json", "--json")],
  ]);
  const words = desk.byId("take-words");
  const assess = desk.latest(() => run("--html=page.html"), (result) => {
    if (desk.work.view !== "take") return undefined;
    say(result);
    desk.showWords(words, []);
    if (result.status !== 0) return page.outdated();
    desk.showWords(words, [desk.paragraph(result.out, 1).split(" Played")[0]]);
    return page.show(desk.textOf(result.files["page.html"]));
  });
  const anew = desk.afterPause(150, () => {
    lay();
    if (desk.work.view === "take") assess();
  });
  for (const what of ["take", "view", "kept", "given"]) desk.on(what, anew);

  desk.takeForTake = async ([file]) => {
    desk.work.takeFile = await desk.keepFile(file);
    desk.changed();
    desk.tell("take");
  };
  desk.takesFiles(desk.byId("take-file"), desk.byId("take-drop"), desk.takeForTake);
  desk.takesFiles(desk.byId("against-file"), null, async ([file]) => {
    desk.work.againstFile = await desk.keepFile(file);
    desk.work.take.against = "file";
    desk.changed();
    desk.tell("take");
  });
  desk.byId("take-example").addEventListener("click", async () => {
    // With its chords written into it, whatever changes are on the first page.
    const [score, changes] = [await unpackInlined("example-score"), await unpackInlined("example-changes")];
    const { files } = await tool.runAsync(["analyze", "lantern-street.musicxml", "--annotated=labelled.musicxml"],
      { "lantern-street.musicxml": score, "lantern-street.changes": changes });
    desk.work.againstFile = await desk.keepFile({ name: "lantern-street.musicxml", bytes: files["labelled.musicxml"] });
    desk.work.take.against = "file";
    await desk.takeForTake([{ name: "lantern-street-take.mid", bytes: await unpackInlined("example-take") }]);
  });
  desk.on("work", () => {
    page.clear();
    lay();
  });
};
