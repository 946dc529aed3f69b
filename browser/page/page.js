// Brings the page up: the tool, the work that was kept, tabs, light and dark, and the file of work.
"use strict";
(() => {
  const root = document.documentElement;
  const system = matchMedia("(prefers-color-scheme: dark)");
  const themeButton = desk.byId("theme");
  desk.isDark = () => (root.dataset.theme ? root.dataset.theme === "dark" : system.matches);
  const showTheme = () => {
    themeButton.setAttribute("aria-pressed", String(desk.isDark()));
    desk.tell("theme");
  };
  themeButton.addEventListener("click", () => {
    root.dataset.theme = desk.isDark() ? "light" : "dark";
    showTheme();
  });
  system.addEventListener("change", showTheme);
  showTheme();

  const workSaid = desk.byId("work-said");
  const say = (kind, text) => desk.showMessages(workSaid, text ? [{ kind, text, line: 0 }] : []);
  desk.complain = (text) => {
    say("error", text);
    workSaid.scrollIntoView({ block: "nearest" });
  };

  const tabs = [...document.querySelectorAll('[role="tab"]')];
  const view = (name, focus = false) => {
    desk.work.view = name;
    for (const tab of tabs) {
      const chosen = tab.id === `tab-${name}`;
      tab.setAttribute("aria-selected", String(chosen));
      tab.tabIndex = chosen ? 0 : -1;
      desk.byId(tab.getAttribute("aria-controls")).hidden = !chosen;
      if (chosen && focus) tab.focus();
    }
    desk.tell("view");
  };
  const choose = (name, focus) => {
    view(name, focus);
    desk.changed();
  };
  for (const [i, tab] of tabs.entries()) {
    tab.addEventListener("click", () => choose(tab.getAttribute("aria-controls")));
    tab.addEventListener("keydown", ({ key }) => {
      const to = { ArrowRight: i + 1, ArrowLeft: i - 1 + tabs.length, Home: 0, End: tabs.length - 1 }[key];
      if (to !== undefined) choose(tabs[to % tabs.length].getAttribute("aria-controls"), true);
    });
  }

  const layOut = () => {
    desk.tell("work");
    view(desk.work.view);
    desk.tell("given");
    desk.byId("work-back").hidden = desk.store.before() === null;
  };
  /// Before the work on the desk makes room for other: it can be brought back.
  desk.setAside = () => {
    const { view: shown, ...work } = desk.work;
    const { view: first, ...empty } = desk.emptyWork();
    if (JSON.stringify(work) !== JSON.stringify(empty)) desk.store.keepBefore(desk.work);
    desk.byId("work-back").hidden = desk.store.before() === null;
  };
  const exchange = async (work) => {
    desk.setAside();
    desk.work = work;
    desk.changed();
    layOut();
  };
  desk.openWork = async (file) => {
    try {
      const { work, files } = desk.workFromFile(desk.textOf(file.bytes));
      for (const [id, one] of files) {
        desk.files.set(id, one);
        await desk.store.putFile(id, one);
      }
      await exchange(work);
      say("hint", `${file.name} is open.`);
    } catch (error) {
      desk.complain(`${file.name}: ${error.message}`);
    }
  };
  desk.takesFiles(desk.byId("work-file"), null, ([file]) => desk.openWork(file));
  desk.byId("work-save").addEventListener("click", () => desk.save("my-work.insideline", desk.workAsFile()));
  desk.byId("work-new").addEventListener("click", async () => {
    await exchange(desk.emptyWork());
    say("hint", "A clean desk. The work before can be brought back.");
    desk.byId("work-back").focus();
  });
  desk.byId("work-back").addEventListener("click", async () => {
    const before = desk.store.before();
    if (!before) return;
    await desk.fetchFiles(before);
    await exchange(before);
    say("hint", "The work before is back, and the other one can be brought back the same way.");
  });
  addEventListener("storage", ({ key }) => {
    if (key === desk.store.key) say("warning", "This work was changed in another window as well; what is changed last is kept.");
  });

  // A file that is dropped beside the places for it goes where it belongs.
  addEventListener("dragover", (event) => event.preventDefault());
  addEventListener("drop", async (event) => {
    event.preventDefault();
    const files = await Promise.all([...event.dataTransfer.files].map(desk.bytesOf));
    if (!files.length) return;
    if (desk.work.view === "take") desk.takeForTake(files);
    else if (desk.work.view === "compare") desk.takeForCompare(files);
    else desk.takeForSolo(files);
  });

  const start = async () => {
    const tool = await loadInlinedTool();
    await desk.store.open().catch(() => desk.notKept("This browser keeps no files here"));
    desk.startChanges(tool);
    desk.startSolo(tool);
    desk.startSheet(tool);
    desk.startCompare(tool);
    desk.startTake(tool);
    const kept = desk.store.work();
    if (kept) desk.work = kept;
    const missing = await desk.fetchFiles(desk.work);
    desk.byId("state").hidden = true;
    desk.byId("bench").hidden = false;
    layOut();
    if (missing.length) desk.complain("A file of your work is no longer in this browser; choose it again, or open the file of work that has it.");
    await desk.store.tidy().catch(() => {});
    desk.byId("version").textContent = (await tool.runAsync(["--version"], {})).out.trim().replace(/^insideline /, "");
  };
  start().catch((error) => {
    desk.byId("state").textContent = `This browser cannot run the tool: ${error.message}. A current one can.`;
  });
})();
