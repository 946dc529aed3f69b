// The command line as a function: what `insideline` prints and writes in a folder that holds the given files.
//
//   const tool = await loadTool(wasmBytes, glue);  // in Node: insideline.wasm and require("insideline.js") of build/browser
//   const tool = await loadInlinedTool();          // in the page: the module that is inlined in it
//   const result = tool.run(["analyze", "solo.abc", "--json", "-"], { "solo.abc": text });
//   const result = await tool.runAsync(args, files);   // the same in a worker: the page stays awake
//   tool.stop();                                   // gives up all that runAsync has under way
//
// `files` are what the folder holds: names, which may have folders in them, and contents (Uint8Array, or a string for UTF-8).
// A result is { status, out, err, files }: the exit status (0, 1, 2), standard output and standard error as text, and every
// file that was written, by name, as Uint8Array. Nothing is thrown for an input that is refused: that is status 1 and a
// message in `err`, as on the command line. Each run starts anew; one that breaks down (a fault of ours, or no memory left)
// is told as an error too, and the next one works. Runs of runAsync are done in the order they were asked for; one that was
// stopped rejects with an Error whose name is "StoppedError".
//
// scripts/browser makes the one file out of page/page.html: each <link rel="stylesheet" href> and <script src> of a local file
// becomes that file's text in place, and <script type="text/plain" id="ID" data-packed="FILE"></script> the bytes of FILE, which
// `await unpackInlined("ID")` hands out. Names are looked up from page/, then from build/browser/.
"use strict";

const folderOfRuns = "/work";
const brokeDown =
  "insideline: error: the program broke down on this input, which should not happen; nothing was written\n" +
  "  please report it with the files: ";

/// Every file under `folder` of the module's own file system: its name from there, and its node.
function* filesOf(FS, folder, before = "") {
  for (const name of FS.readdir(folder)) {
    if (name === "." || name === "..") continue;
    const { node } = FS.lookupPath(`${folder}/${name}`);
    if (FS.isDir(node.mode)) yield* filesOf(FS, `${folder}/${name}`, `${before}${name}/`);
    else yield [`${before}${name}`, node];
  }
}

/// Puts `files` into the folder of the run. The nodes they have there.
function giveFiles(FS, files) {
  FS.mkdir(folderOfRuns);
  FS.chdir(folderOfRuns);
  for (const [name, content] of Object.entries(files)) {
    const path = `${folderOfRuns}/${name}`;
    FS.mkdirTree(path.slice(0, path.lastIndexOf("/")));
    FS.writeFile(path, content);
  }
  return new Set([...filesOf(FS, folderOfRuns)].map(([, node]) => node));
}

/// What is written to the stream of that number, piece by piece; not a terminal.
function listenTo(FS, number) {
  const pieces = [];
  const stream = FS.streams[number];
  stream.tty = undefined;
  stream.stream_ops = {
    write(_stream, buffer, offset, length) {
      pieces.push(buffer.slice(offset, offset + length));
      return length;
    },
  };
  return pieces;
}

function textOf(pieces) {
  const decoder = new TextDecoder();
  return pieces.map((piece) => decoder.decode(piece, { stream: true })).join("") + decoder.decode();
}

/// One run of a compiled module, in an instance of its own. `glue` is what emscripten made to load it.
function runOnce(glue, compiled, args, files) {
  const program = {
    thisProgram: "insideline",
    stdin: () => null,
    instantiateWasm(imports, receive) {
      const instance = new WebAssembly.Instance(compiled, imports);
      receive(instance, compiled);
      return instance.exports;
    },
    quit(status, thrown) {
      throw thrown;
    },
  };
  glue(program).catch(() => {});
  const { FS } = program;
  const given = giveFiles(FS, files);
  const out = listenTo(FS, 1);
  const err = listenTo(FS, 2);
  let status = 0;
  try {
    status = program.callMain(args.slice());
  } catch (fault) {
    return { status: 1, out: "", err: `${brokeDown}${fault.message ?? fault}\n`, files: {} };
  }
  const written = {};
  for (const [name, node] of filesOf(FS, folderOfRuns)) {
    if (!given.has(node)) written[name] = new Uint8Array(node.contents.slice(0, node.usedBytes));  // emscripten may hand out signed ones
  }
  return { status, out: textOf(out), err: textOf(err), files: written };
}

/// Does the runs of runAsync one after the other, in the worker that `start` makes. A worker that was ended is made anew.
class Queue {
  constructor(start) {
    this.start = start;
    this.waiting = [];
  }
  add(args, files) {
    return new Promise((resolve, reject) => {
      this.waiting.push({ args, files, resolve, reject });
      if (this.waiting.length === 1) this.next();
    });
  }
  next() {
    if (this.waiting.length === 0) return;
    this.worker ??= this.start();
    const { args, files, resolve, reject } = this.waiting[0];
    const ended = (settle) => {
      this.waiting.shift();
      settle();
      this.next();
    };
    this.worker.onmessage = ({ data }) => ended(() => resolve(data));
    this.worker.onerror = (event) => {
      event.preventDefault();
      this.end();
      ended(() => reject(new Error(event.message)));
    };
    this.worker.postMessage({ args, files });
  }
  end() {
    this.worker?.terminate();
    this.worker = undefined;
  }
  stop() {
    this.end();
    const error = Object.assign(new Error("stopped"), { name: "StoppedError" });
    for (const { reject } of this.waiting.splice(0)) reject(error);
  }
}

/// A worker made of the page's own text, as a page from the disk may load no other.
function workerOf(glueText, compiled) {
  const parts = [folderOfRuns, brokeDown].map((text) => JSON.stringify(text));
  const text = [
    glueText,
    `const folderOfRuns = ${parts[0]}, brokeDown = ${parts[1]};`,
    ...[filesOf, giveFiles, listenTo, textOf, runOnce].map(String),
    `let compiled;
     onmessage = ({ data }) => {
       if (data.compiled) compiled = data.compiled;
       else postMessage(runOnce(insidelineModule, compiled, data.args, data.files));
     };`,
  ].join("\n");
  const address = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
  const worker = new Worker(address);
  URL.revokeObjectURL(address);
  worker.postMessage({ compiled });
  return worker;
}

/// The tool, from the bytes of the module. `glue` is the function of the insideline.js that was made with it, and `glueText`
/// the text of that file for the worker; without it, as in Node, runAsync does the same as run.
async function loadTool(wasmBytes, glue, glueText) {
  const compiled = await WebAssembly.compile(wasmBytes);
  const queue = glueText && new Queue(() => workerOf(glueText, compiled));
  const run = (args, files = {}) => runOnce(glue, compiled, args, files);
  return {
    run,
    runAsync: queue ? (args, files = {}) => queue.add(args, files) : async (args, files) => run(args, files),
    stop: () => queue?.stop(),
  };
}

/// What scripts/browser packed into the page under `id`, as bytes.
async function unpackInlined(id) {
  const packed = Uint8Array.from(atob(document.getElementById(id).textContent), (letter) => letter.charCodeAt(0));
  const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(unpacked).arrayBuffer());
}

/// The tool of the page that this is inlined in.
async function loadInlinedTool() {
  const glueText = document.getElementById("insideline-glue").textContent;
  return loadTool(await unpackInlined("insideline-module"), insidelineModule, glueText);
}

if (typeof module !== "undefined") module.exports = { loadTool };
