// The work on the desk, and where it is kept: what is typed and chosen in localStorage, at once and with every change; the
// files in IndexedDB. A file of work holds both.
"use strict";
desk.emptyWork = () => ({
  view: "solo", lineKind: "file", soloFile: "", lineText: "", changes: "", hearing: "",
  options: {}, sheet: {}, compare: {}, otherFile: "", otherChanges: "",
  take: {}, takeFile: "", againstFile: "", kept: [],
});
desk.work = desk.emptyWork();
desk.files = new Map(); // id -> { name, bytes }
desk.file = (id) => desk.files.get(id) ?? null;
desk.filesOf = (work) => [work.soloFile, work.otherFile, work.takeFile, work.againstFile, ...work.kept].filter(Boolean);

/// Work from an object of unknown origin: known fields of the right kind; anything else is left out.
desk.workFrom = (given) => {
  const work = desk.emptyWork();
  for (const [name, usual] of Object.entries(work)) {
    const value = given[name];
    if (Array.isArray(usual)) work[name] = Array.isArray(value) ? value.filter((one) => typeof one === "string") : usual;
    else if (typeof usual === "string") work[name] = typeof value === "string" ? value : usual;
    else if (value && typeof value === "object" && !Array.isArray(value))
      work[name] = Object.fromEntries(Object.entries(value).filter(([, one]) => ["string", "boolean"].includes(typeof one)));
  }
  if (!["solo", "sheet", "compare", "take"].includes(work.view)) work.view = "solo";
  if (work.lineKind !== "typed") work.lineKind = "file";
  return work;
};

desk.store = (() => {
  const kept = "insideline-work";
  const earlier = "insideline-work-before";
  let database = null;
  const asked = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const shelf = (mode) => database.transaction("files", mode).objectStore("files");
  const read = (key) => {
    try {
      const text = localStorage.getItem(key);
      return text ? desk.workFrom(JSON.parse(text)) : null;
    } catch {
      return null;
    }
  };
  const write = (key, work) => {
    try {
      localStorage.setItem(key, JSON.stringify(work));
      return true;
    } catch {
      return false;
    }
  };
  return {
    async open() {
      const opening = indexedDB.open("insideline", 1);
      opening.onupgradeneeded = () => opening.result.createObjectStore("files");
      database = await asked(opening);
    },
    work: () => read(kept),
    before: () => read(earlier),
    keep: (work) => write(kept, work),
    keepBefore: (work) => write(earlier, work),
    async putFile(id, file) { if (database) await asked(shelf("readwrite").put(file, id)); },
    async getFile(id) { return database ? asked(shelf("readonly").get(id)) : null; },
    /// Takes away files that no work refers to.
    async tidy() {
      if (!database) return;
      const needed = new Set([read(kept), read(earlier)].filter(Boolean).flatMap(desk.filesOf));
      for (const id of await asked(shelf("readonly").getAllKeys())) if (!needed.has(id)) await asked(shelf("readwrite").delete(id));
    },
    keepsFiles: () => database !== null,
    key: kept,
  };
})();

/// After every change of desk.work.
desk.changed = () => {
  if (!desk.store.keep(desk.work)) desk.notKept("This browser has no room for it or keeps nothing here");
};
desk.notKept = (why) => {
  desk.byId("work-state").textContent = `${why}: your work is lost when you close this page. Save it to a file.`;
};

/// Puts a file on the desk and gives its id.
desk.keepFile = async (file) => {
  const id = `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 10)}`;
  desk.files.set(id, file);
  try {
    await desk.store.putFile(id, file);
  } catch {
    desk.notKept("This browser could not keep the file");
  }
  return id;
};

/// Fetches the files of `work` from the store; gives the ids of those that are not there.
desk.fetchFiles = async (work) => {
  const missing = [];
  for (const id of desk.filesOf(work)) {
    if (desk.files.has(id)) continue;
    const file = await desk.store.getFile(id).catch(() => null);
    if (file && file.bytes instanceof Uint8Array) desk.files.set(id, { name: desk.safeName(String(file.name)), bytes: file.bytes });
    else missing.push(id);
  }
  return missing;
};

desk.workAsFile = () => JSON.stringify({
  format: "insideline-work", version: 1, work: desk.work,
  files: Object.fromEntries(desk.filesOf(desk.work).filter((id) => desk.file(id))
    .map((id) => [id, { name: desk.file(id).name, bytes: desk.packed(desk.file(id).bytes) }])),
}, null, 1);

/// The work and files in the text of a file of work. Throws an Error that says what is wrong.
desk.workFromFile = (text) => {
  let given = null;
  try {
    given = JSON.parse(text);
  } catch (error) {
    throw new Error(`this is no file of work: ${error.message}`);
  }
  if (!given || given.format !== "insideline-work") throw new Error("this is no file of work; choose one that this page saved");
  if (given.version !== 1) throw new Error(`this file of work is of version ${given.version}, and this page reads version 1; open it with a newer page`);
  const work = desk.workFrom(given.work ?? {});
  const files = new Map();
  for (const id of desk.filesOf(work)) {
    const file = given.files?.[id];
    if (!file || typeof file.name !== "string" || typeof file.bytes !== "string")
      throw new Error("a file that the work needs is missing in it; was it cut short?");
    try {
      files.set(id, { name: desk.safeName(file.name), bytes: desk.unpacked(file.bytes) });
    } catch {
      throw new Error(`the file "${file.name}" in it is damaged; open an earlier one`);
    }
  }
  return { work, files };
};
