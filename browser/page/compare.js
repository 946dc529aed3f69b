// Two solos side by side, or the choruses or sections of one.
"use strict";
desk.startCompare = (tool) => {
  const two = ({ how = "" }) => how === "";
  const form = desk.form(desk.byId("compare-options"), [
    { name: "how", label: "What to compare", choices: [["", "this solo with another"], ["choruses", "the choruses of this solo"], ["sections", "the sections of this solo"]] },
    { name: "beforeAfter", label: "Two takes of one player, this one the earlier", check: true, when: two },
    { name: "section", label: "Only the section", text: "all", when: ({ how }) => how !== "sections" },
  ], () => desk.work.compare, () => {
    desk.changed();
    lay();
  });
  const said = desk.byId("compare-said");
  const otherEditor = desk.editor(desk.byId("other-changes"), desk.byId("other-said"), (text) => {
    desk.work.otherChanges = text;
    desk.changed();
  }, { wholeWords: true });
  function lay() {
    form.refresh();
    desk.byId("compare-other").hidden = !two(desk.work.compare);
    desk.byId("other-name").textContent = desk.file(desk.work.otherFile)?.name ?? "No other solo yet.";
  }

  /// { args, files } or { hint }.
  const call = () => {
    const solo = desk.soloCall(true);
    if (!solo) return { hint: "First a solo and its changes, on the first page." };
    const how = form.value("how");
    const args = ["compare", ...solo.args];
    const files = { ...solo.files };
    if (how) args.push(`--${how}`);
    else {
      const other = desk.file(desk.work.otherFile);
      if (!other) return { hint: "Choose the other solo." };
      const stem = desk.stemOf(other.name) === solo.stem ? `${solo.stem}-2` : desk.stemOf(other.name);
      const name = `${stem}${desk.endingOf(other.name)}`;
      files[name] = other.bytes;
      args.splice(2, 0, name);
      if (desk.work.otherChanges.trim()) {
        files[`${stem}.changes`] = desk.work.otherChanges;
        // Each over its own: those beside it.
        const own = args.indexOf(`--changes=${solo.stem}.changes`);
        if (own >= 0) args.splice(own, 1);
      }
      if (form.value("beforeAfter")) args.push("--before-after");
    }
    if (form.value("section")) args.push(`--section=${form.value("section")}`);
    return { args, files };
  };
  const run = async (...written) => {
    const { args, files, hint } = call();
    if (hint) return { status: 1, err: "", hint, names: [] };
    return { ...(await tool.runAsync([...args, ...written], files)), names: Object.keys(files) };
  };
  const say = ({ err, hint, names = [] }) => {
    const messages = desk.messagesOf(err, names);
    if (hint) messages.push({ kind: "hint", text: hint });
    const inOther = messages.filter(({ file, line }) => line && file.endsWith(".changes") && !file.startsWith(`${desk.soloCall(true)?.stem}.`));
    otherEditor.show(inOther);
    desk.showMessages(said, messages.filter((message) => !inOther.includes(message)));
  };
  const saved = (name, option) => async () => {
    const result = await run(...(option ? [`${option}=${name}`] : []));
    say(result);
    if (result.status === 0) desk.save(name, option ? result.files[name] : result.out);
  };
  const page = desk.shown(desk.byId("compare-result"), "The comparison", [
    ["Save the page", saved("comparison.html", "--html")], ["Text", saved("comparison.txt", "")], ["Figures (JSON)", saved("comparison.json", "--json")],
  ]);
  const go = desk.byId("do-compare");
  const compare = desk.latest(() => run("--html=page.html"), (result) => {
    go.disabled = false;
    say(result);
    if (result.status !== 0) return page.outdated();
    return page.show(desk.textOf(result.files["page.html"]));
  });
  go.addEventListener("click", () => {
    go.disabled = true;
    desk.showMessages(said, [{ kind: "hint", text: "Comparing …" }]);
    compare();
  });
  desk.takeForCompare = async ([file]) => {
    if (desk.endingOf(file.name) === ".changes") return otherEditor.replace(desk.textOf(file.bytes));
    desk.work.otherFile = await desk.keepFile(file);
    desk.changed();
    return lay();
  };
  desk.takesFiles(desk.byId("other-file"), desk.byId("other-drop"), desk.takeForCompare);
  desk.on("given", page.outdated);
  desk.on("work", () => {
    otherEditor.set(desk.work.otherChanges);
    page.clear();
    desk.showMessages(said, []);
    lay();
  });
};
