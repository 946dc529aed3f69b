// What the module is asked in the tests, and must answer as the program does: { name, args, files }.
"use strict";

const fs = require("node:fs");
const path = require("node:path");

/// The files of some folders of the tree, by their names in it.
function filesIn(tree, folders) {
  const files = {};
  for (const folder of folders)
    for (const entry of fs.readdirSync(path.join(tree, folder), { withFileTypes: true })) {
      const name = `${folder}/${entry.name}`;
      if (entry.isFile()) files[name] = new Uint8Array(fs.readFileSync(path.join(tree, name)));
    }
  return files;
}

const isScore = (name) => /\.(musicxml|mxl|xml|midi?|abc)$/.test(name);

/// The words of a line of the shell that calls the program once and does nothing else; none of any other line.
function wordsOf(line) {
  const words = [];
  let rest = line.trim();
  while (rest) {
    const word = /^(?:"([^"`\\]*)"|'([^']*)'|([^\s"'`\\|;&<>(){}*?$#~]+|\$(?:CORPUS|DATA)[^\s"'`\\|;&<>(){}*?$#]*))(?=\s|$)\s*/.exec(rest);
    if (!word) return undefined;
    words.push(word[2] ?? (word[1] ?? word[3]).replaceAll("$CORPUS", "corpus-demo").replaceAll("$DATA", "tests/cli/data"));
    rest = rest.slice(word[0].length);
  }
  return words.some((text) => text.includes("$")) || words[0] !== "insideline" ? undefined : words.slice(1);
}

/// What needs a database, LilyPond or FluidSynth.
const isLeftOut = (args) =>
  ["survey", "merge", "log"].includes(args[0]) ||
  args.some((arg) => /^--(against|log|score|habits-of|collection|sound)\b|\.(pdf|wav)$/.test(arg));

/// The golden cases of the program that are one call of it.
function goldenCases(tree) {
  const folder = path.join(tree, "tests/cli/cases");
  const files = filesIn(tree, ["corpus-demo", "tests/cli/data", "tests/io/data", "tests/io/data/abc"]);
  const cases = [];
  for (const name of fs.readdirSync(folder).filter((file) => file.endsWith(".cmd")).sort()) {
    const args = wordsOf(fs.readFileSync(path.join(folder, name), "utf8"));
    if (args && !isLeftOut(args)) cases.push({ name, args, files });
  }
  return cases;
}

/// Each score analysed: everything as JSON, and the page.
function analyses(tree, folders) {
  const cases = [];
  for (const folder of folders) {
    const files = filesIn(tree, [folder]);
    for (const name of Object.keys(files).filter(isScore)) {
      const changes = name.replace(/(-take)?\.[a-z]+$/, ".changes");
      const beside = changes in files ? { [changes]: files[changes] } : {};
      cases.push({ name, args: ["analyze", name, "--json", "-", "--html", "page.html"], files: { [name]: files[name], ...beside } });
    }
  }
  return cases;
}

/// Files that were made or found to break a reader.
function tortures(tree) {
  const cases = [];
  for (const folder of ["tests/io/crashes/midi", "tests/io/crashes/musicxml"])
    for (const [name, bytes] of Object.entries(filesIn(tree, [folder])))
      cases.push({ name, args: ["analyze", name, "--json", "-"], files: { [name]: bytes } });
  const solo = "tests/cli/data/two_bars.musicxml";
  for (const kind of ["changes", "hearing", "abc", "midi", "musicxml"]) {
    const seeds = `tests/fuzz/seeds/${kind}`;
    if (!fs.existsSync(path.join(tree, seeds))) continue;
    for (const [name, bytes] of Object.entries(filesIn(tree, [seeds]))) {
      const files = { ...filesIn(tree, ["tests/cli/data"]), [name]: bytes };
      if (kind === "changes") cases.push({ name, args: ["analyze", solo, "--changes", name, "--json", "-"], files });
      else if (kind === "hearing") cases.push({ name, args: ["analyze", solo, "--hearing", name, "--json", "-"], files });
      else cases.push({ name, args: ["analyze", name, "--json", "-"], files: { [name]: bytes } });
    }
  }
  return cases;
}

/// Every second half or quarter missing, and every so many bytes another one: damage of all sorts.
function damaged(cases) {
  const out = [];
  for (const { name, args, files } of cases) {
    const bytes = files[name];
    for (const part of [2, 4]) out.push({ name: `${name}, cut to 1/${part}`, args, files: { ...files, [name]: bytes.slice(0, bytes.length / part) } });
    const other = Uint8Array.from(bytes, (byte, at) => (at % 97 === 41 ? byte ^ 0x15 : byte));
    out.push({ name: `${name}, bytes changed`, args, files: { ...files, [name]: other } });
  }
  return out;
}

/// All that a run said and wrote, to be compared.
function seen({ status, out, err, files }) {
  const written = Object.entries(files).sort(([a], [b]) => (a < b ? -1 : 1));
  return JSON.stringify([status, out, err, written.map(([name, bytes]) => [name, Buffer.from(bytes).toString("base64")])]);
}

module.exports = { analyses, damaged, goldenCases, isScore, seen, tortures };
