// The solo: the line and its changes in, its page out, anew with every key that is typed.
"use strict";
/// The line that is on the desk: { name, content }, or null.
desk.soloGiven = () => {
  const { lineKind, lineText, soloFile } = desk.work;
  if (lineKind === "typed") return lineText.trim() ? { name: "typed.abc", content: lineText } : null;
  const file = desk.file(soloFile);
  return file ? { name: file.name, content: file.bytes } : null;
};
/// The solo as the command line is given it: { args, files, names }; null without a line.
desk.soloCall = (few = false) => {
  const given = desk.soloGiven();
  if (!given) return null;
  const files = { [given.name]: given.content };
  const stem = desk.stemOf(given.name);
  const args = [given.name, ...desk.soloSettings.args(files, few)];
  if (desk.work.changes.trim()) {
    files[`${stem}.changes`] = desk.work.changes;
    args.push(`--changes=${stem}.changes`);
  }
  if (desk.work.hearing.trim() && !few) {
    files[`${stem}.hearing`] = desk.work.hearing;
    args.push(`--hearing=${stem}.hearing`);
  }
  return { args, files, stem };
};

desk.startSolo = (tool) => {
  const lineEditor = desk.editor(desk.byId("line-text"), desk.byId("line-said"), (text) => {
    desk.work.lineText = text;
    desk.changed();
    desk.tell("given");
  });
  const hearingEditor = desk.editor(desk.byId("hearing-text"), desk.byId("hearing-said"), (text) => {
    desk.work.hearing = text;
    desk.changed();
    desk.tell("given");
  });
  const template = "T:My Line\nM:4/4\nL:1/8\nK:Bb\nz c e g b2 a g | f e c A F2 G A | B2 d f a g f d | _a f d =B G4 |]\n";
  const said = desk.byId("solo-said");
  const words = desk.byId("solo-words");
  const cure = { cure: desk.soloSettings.set, words: desk.soloSettings.words };

  /// Runs an analysis that writes `name`, and saves that.
  const saveAs = (ending, option) => async () => {
    const call = desk.soloCall();
    const target = `${call.stem}${ending}`;
    const wanted = target in call.files ? `labelled-${target}` : target;
    const result = await tool.runAsync(["analyze", ...call.args, ...(option ? [`${option}=${wanted}`] : ["--details", "--bars"])], call.files);
    const content = option ? result.files[wanted] : result.out;
    if (result.status !== 0 || !content) return desk.showMessages(said, desk.messagesOf(result.err, Object.keys(call.files)), cure);
    return desk.save(wanted, content);
  };
  const page = desk.shown(desk.byId("solo-result"), "The page of the solo", [
    ["Save the page", saveAs(".html", "--html")], ["Score with labels", saveAs("-labelled.musicxml", "--annotated")],
    ["Text", saveAs(".txt", "")], ["Table (CSV)", saveAs(".csv", "--csv")], ["Analysis (JSON)", saveAs(".json", "--json")],
  ]);

  const scored = (option) => async () => {
    const call = desk.soloCall();
    if (!call) return { err: "" };
    if (!option) return /xml$/.test(call.args[0]) ? { score: desk.textOf(desk.soloGiven().content) } : { err: "insideline: error: only a MusicXML file has a page to draw\n" };
    const result = await tool.runAsync(["analyze", ...call.args, `${option}=labelled.musicxml`], call.files);
    return result.status === 0 ? { score: desk.textOf(result.files["labelled.musicxml"]) } : { err: result.err };
  };
  const staves = desk.staves(desk.byId("solo-staves"), "The solo", [["with its labels", scored("--annotated")], ["as it stands", scored("")]],
    (err) => desk.showMessages(said, desk.messagesOf(err, []), cure));

  const hand = (messages, call) => {
    const of = (file) => messages.filter((message) => message.file === file && message.line > 0);
    const given = desk.soloGiven();
    const inLine = desk.work.lineKind === "typed" ? of(given.name) : [];
    const inChanges = of(`${call.stem}.changes`);
    const inHearing = of(`${call.stem}.hearing`);
    lineEditor.show(inLine);
    desk.changesEditor.show(inChanges);
    hearingEditor.show(inHearing);
    desk.showMessages(said, messages.filter((message) => ![...inLine, ...inChanges, ...inHearing].includes(message)), cure);
    desk.soloSettings.bringUp(messages.flatMap(({ text }) => desk.asksFor(text)).map(({ name }) => name));
  };
  const show = (result, call) => {
    if (!desk.soloGiven()) return undefined; // taken away meanwhile
    const messages = desk.messagesOf(result.err, Object.keys(call.files));
    for (const message of messages)
      if (message.kind === "error" && /has no chord symbols/.test(message.text)) {
        message.kind = "hint";
        message.text = "The line is there. Now its changes: type them, or open a file.";
      }
    hand(messages, call);
    desk.byId("changes-from-score").hidden = result.status !== 0 || desk.work.changes.trim() !== "";
    desk.showWords(words, []);
    if (result.status !== 0) return page.outdated();
    desk.showWords(words, [desk.paragraph(result.out, 1).split(" From ")[0], desk.paragraph(result.out, "Chord tones")]);
    desk.byId("solo-staves").hidden = false;
    staves.outdated();
    return page.show(desk.textOf(result.files["page.html"]));
  };
  const analyse = desk.latest((call) => tool.runAsync(["analyze", ...call.args, "--html=page.html"], call.files), show);
  const checkChanges = desk.latest((text) => tool.runAsync(["changes", "tune.changes"], { "tune.changes": text }),
    (result) => desk.changesEditor.show(desk.messagesOf(result.err, ["tune.changes"])));
  const readAnew = desk.afterPause(180, () => {
    const call = desk.soloCall();
    if (call) return analyse(call);
    page.clear();
    desk.byId("solo-staves").hidden = true;
    desk.showWords(words, []);
    desk.showMessages(said, []);
    lineEditor.show([]);
    hearingEditor.show([]);
    desk.byId("changes-from-score").hidden = true;
    return desk.work.changes.trim() ? checkChanges(desk.work.changes) : desk.changesEditor.show([]);
  });
  desk.on("given", readAnew);

  // Which parts there are: a question for a part that no score has is answered with a list.
  const listParts = desk.latest(async () => {
    const given = desk.soloGiven();
    const unlikely = "no part has this name";
    return given ? tool.runAsync(["analyze", given.name, `--part=${unlikely}`], { [given.name]: given.content }) : { err: "" };
  }, ({ err }) => {
    const list = / the (?:score|tune|file) has (.*)|; there is (.*)/.exec(err.split("\n")[0]);
    const found = [...(list?.[1] ?? "").matchAll(/(\d+) "([^"]*)"/g), ...(list?.[2] ?? "").matchAll(/track (\d+)(?: \(([^)]*)\))?/g)];
    desk.soloSettings.parts(found.map(([, number, name]) => [number, name ? `${number}: ${name}` : number]));
  });
  const sayName = () => {
    const file = desk.file(desk.work.soloFile);
    desk.byId("solo-name").textContent = file ? file.name : "No score yet.";
  };
  const chooseKind = (kind) => {
    desk.work.lineKind = kind;
    desk.byId("line-from-file").checked = kind === "file";
    desk.byId("line-typed").checked = kind === "typed";
    desk.byId("line-file").hidden = kind !== "file";
    desk.byId("line-typing").hidden = kind !== "typed";
    if (kind === "typed" && !desk.work.lineText) desk.work.lineText = template;
    lineEditor.set(desk.work.lineText);
  };
  for (const id of ["line-from-file", "line-typed"])
    desk.byId(id).addEventListener("change", ({ target }) => {
      chooseKind(target.value);
      desk.changed();
      listParts();
      desk.tell("given");
    });

  /// Takes in what was chosen or dropped: a score, changes, corrections of what is heard, or several of them.
  desk.takeForSolo = async (files) => {
    for (const file of files) {
      const ending = desk.endingOf(file.name);
      if (ending === ".insideline") return desk.openWork(file);
      if (ending === ".changes" || ending === ".txt") desk.changesEditor.replace(desk.textOf(file.bytes));
      else if (ending === ".hearing") desk.work.hearing = desk.textOf(file.bytes);
      else {
        desk.work.soloFile = await desk.keepFile(file);
        desk.work.options = {};
        chooseKind("file");
      }
    }
    desk.changed();
    desk.tell("work");
    return desk.tell("given");
  };
  desk.takesFiles(desk.byId("solo-file"), desk.byId("solo-drop"), desk.takeForSolo);
  desk.byId("example").addEventListener("click", async () => {
    desk.setAside();
    const file = { name: "lantern-street.musicxml", bytes: await unpackInlined("example-score") };
    await desk.takeForSolo([file, { name: "lantern-street.changes", bytes: await unpackInlined("example-changes") }]);
  });
  desk.byId("hearing-unsure").addEventListener("click", async () => {
    const call = desk.soloCall(false);
    if (!call) return desk.showMessages(said, [{ kind: "hint", text: "First a line and its changes." }]);
    const result = await tool.runAsync(["analyze", ...call.args, "--hearing-out=unsure.hearing", "--only-unsure"], call.files);
    const found = result.files["unsure.hearing"];
    if (!found) return desk.showMessages(said, desk.messagesOf(result.err, Object.keys(call.files)), cure);
    return hearingEditor.replace(`${desk.work.hearing.trim() ? `${desk.work.hearing.trimEnd()}\n` : ""}${desk.textOf(found)}`);
  });
  desk.on("work", () => {
    chooseKind(desk.work.lineKind);
    hearingEditor.set(desk.work.hearing);
    sayName();
    desk.soloSettings.bringUp([]);
    listParts();
  });
};
