// The command line as a function: what `insideline` prints and writes in a folder that holds the given files.
//
//   const tool = await loadTool(wasmBytes);        // in Node: the bytes of build/browser/insideline.wasm
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

/// The tool, from the bytes of the module.
async function loadTool(wasmBytes) {
  throw new Error("the module is not built");
}

/// What scripts/browser packed into the page under `id`, as bytes.
async function unpackInlined(id) {
  const packed = Uint8Array.from(atob(document.getElementById(id).textContent), (letter) => letter.charCodeAt(0));
  const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(unpacked).arrayBuffer());
}

/// The tool of the page that this is inlined in.
async function loadInlinedTool() {
  return loadTool(await unpackInlined("insideline-module"));
}

if (typeof module !== "undefined") module.exports = { loadTool };
