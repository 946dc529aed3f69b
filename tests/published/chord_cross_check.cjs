// Compares how this program reads chord symbols with two libraries of the npm world.
//   node chord_cross_check.cjs CHORD_PITCH_CLASSES DISAGREEMENTS
// The first is a program that writes: symbol, root, suffix, pitch classes, one symbol a line. The second is
// a table whose head explains it. Fails at a difference that the table does not foretell, at a row of the
// table that nothing needs, and where fewer than 1500 symbols could be compared with either library.
const { execFileSync } = require("child_process");
const { readFileSync } = require("fs");
const tonal = require("tonal");
const { chordParserFactory } = require("chord-symbol/lib/chord-symbol.js");

const least_compared = 1500;
const [program, table] = process.argv.slice(2);
const parse = chordParserFactory();
const ascending = (classes) => [...new Set(classes)].sort((a, b) => a - b).join(" ");
const above = (root, classes) => classes.map((pitch_class) => (pitch_class - root + 12) % 12);

const libraries = {
  tonal: (symbol) => {
    const chord = tonal.Chord.get(symbol);
    return chord.empty ? null : chord.notes.map((name) => tonal.Note.chroma(name));
  },
  "chord-symbol": (symbol) => {
    const chord = parse(symbol);
    if (chord.error) return null;
    const root = tonal.Note.chroma(chord.normalized.rootNote);
    return chord.normalized.semitones.map((semitones) => (root + semitones) % 12);
  },
};

const rows = readFileSync(table, "utf8")
  .split("\n")
  .filter((line) => line !== "" && !line.startsWith("# "))
  .map((line) => {
    const [library, root, pattern, change, reason] = line.split("\t");
    if (!(library in libraries) || !reason) throw new Error(`not a row of five columns: ${line}`);
    return { library, root, pattern: new RegExp(pattern, "u"), change, line, needed: false };
  });

function foretold(library, { root, suffix, ours }) {
  let classes = new Set(ours);
  const used = [];
  for (const row of rows) {
    if (row.library !== library || (row.root !== "any" && row.root !== root) || !row.pattern.test(suffix)) continue;
    if (row.change === "all") return { all: true, used: [row] };
    for (const word of row.change.split(" ")) {
      const semitones = Number(word.slice(1));
      if (word.startsWith("-") ? classes.delete(semitones) : !classes.has(semitones) && classes.add(semitones)) used.push(row);
    }
  }
  return { all: false, classes: ascending(classes), used };
}

const chords = execFileSync(program, { encoding: "utf8", maxBuffer: 1 << 28 })
  .trim()
  .split("\n")
  .map((line) => {
    const [symbol, root, suffix, classes] = line.split("\t");
    return { symbol, root, suffix, ours: above(tonal.Note.chroma(root), classes.split(" ").map(Number)) };
  });

let faults = 0;
const shown = new Set();  // a suffix is shown on one root only
for (const [library, read] of Object.entries(libraries)) {
  let compared = 0;
  let agreed = 0;
  for (const chord of chords) {
    const classes = read(chord.symbol);
    if (classes === null) continue;
    ++compared;
    const theirs = ascending(above(tonal.Note.chroma(chord.root), classes));
    const ours = ascending(chord.ours);
    const { all, classes: expected, used } = foretold(library, chord);
    if (ours === theirs) {
      ++agreed;
    } else if (all || expected === theirs) {
      for (const row of used) row.needed = true;
    } else {
      ++faults;
      if (shown.has(library + chord.suffix) || shown.size >= 40) continue;
      shown.add(library + chord.suffix);
      console.error(`${chord.symbol}: ${ours} here, ${theirs} in ${library}, ${expected} by the table`);
    }
  }
  console.log(`${library}: ${compared} of ${chords.length} symbols compared, ${agreed} agree, the rest differs as the table says`);
  if (compared < least_compared) {
    console.error(`fewer than ${least_compared} symbols compared with ${library}`);
    ++faults;
  }
}
for (const row of rows.filter((candidate) => !candidate.needed)) {
  console.error(`no symbol needs this row: ${row.line}`);
  ++faults;
}
if (faults > 0) {
  console.error(`${faults} faults`);
  process.exit(1);
}
