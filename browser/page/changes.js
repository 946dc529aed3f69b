// The changes: typed, opened, taken from a score, moved into another key; and what the chord at the caret means.
"use strict";
desk.startChanges = (tool) => {
  const reading = desk.byId("reading");
  const readChord = desk.latest((symbol) => tool.runAsync(["chord", symbol], {}), (result) => {
    reading.hidden = result.status !== 0;
    reading.textContent = result.out.trimEnd();
  });
  const atCaret = desk.afterPause(120, () => {
    const editor = desk.changesEditor;
    const symbol = editor.atCaret().replace(/^[(,]+|,+$/g, "");
    const isHeader = /^\s*(#|[a-z]+:)/.test(editor.lineAtCaret());
    if (isHeader || !/^[A-Ga-g]/.test(symbol)) reading.hidden = true;
    else readChord(symbol);
  });
  desk.changesEditor = desk.editor(desk.byId("changes-text"), desk.byId("changes-said"), (text) => {
    desk.work.changes = text;
    desk.changed();
    atCaret();
    desk.tell("given");
  }, { wholeWords: true });
  for (const event of ["keyup", "click", "focus"]) desk.changesEditor.area.addEventListener(event, atCaret);

  /// The chart to practise over: what is typed, or else the chords of the score. A promise of { text } or { err }.
  desk.chart = async () => {
    if (desk.work.changes.trim()) return { text: desk.work.changes };
    const given = desk.soloGiven();
    if (!given) return { err: "" };
    const result = await tool.runAsync(["changes", given.name], { [given.name]: given.content });
    return result.status === 0 ? { text: result.out } : { err: result.err };
  };
  const orSay = (result, name) => {
    if (result.status === 0) desk.changesEditor.replace(result.out);
    else desk.changesEditor.show(desk.messagesOf(result.err, [name]));
  };
  desk.byId("changes-from-score").addEventListener("click", async () => {
    const given = desk.soloGiven();
    orSay(await tool.runAsync(["changes", given.name], { [given.name]: given.content }), given.name);
  });
  desk.byId("to-key").addEventListener("click", async () => {
    const tonic = desk.byId("to-tonic").value.trim();
    orSay(await tool.runAsync(["changes", "tune.changes", `--to=${tonic}`], { "tune.changes": desk.work.changes }), "tune.changes");
  });
  desk.byId("changes-save").addEventListener("click", async () => {
    const { text } = await desk.chart();
    if (text) desk.save(`${desk.stemOf(desk.soloGiven()?.name ?? "tune")}.changes`, text);
  });
  desk.takesFiles(desk.byId("changes-file"), desk.byId("changes-given"), async ([file]) => {
    if ([".changes", ".txt", ""].includes(desk.endingOf(file.name))) desk.changesEditor.replace(desk.textOf(file.bytes));
    else desk.takeForSolo([file]);
  });
  desk.on("work", () => {
    desk.changesEditor.set(desk.work.changes);
    reading.hidden = true;
  });
};
