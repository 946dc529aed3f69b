// The interface of browser/tool.js, answered by the native program: what the module must agree with byte for byte, and what
// the page can be written and tested against without the module.
//
//   const { loadNative } = require("./stand_in.cjs");
//   const tool = loadNative("build/dev/cli/insideline");
//
// As a program it serves the page, with the native program behind it, on this machine only:
//
//   node tests/browser/stand_in.cjs build/dev/cli/insideline 8023       then open http://127.0.0.1:8023/
"use strict";

const { spawnSync } = require("node:child_process");
const fs = require("node:fs");
const http = require("node:http");
const os = require("node:os");
const path = require("node:path");

/// Every file under `folder`, by its name from there.
function filesUnder(folder) {
  return fs
    .readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath ?? entry.path, entry.name)));
}

function runNative(program, args, files) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "insideline-native-"));
  try {
    const given = new Map();
    for (const [name, content] of Object.entries(files)) {
      const file = path.join(folder, name);
      fs.mkdirSync(path.dirname(file), { recursive: true });
      fs.writeFileSync(file, content);
      given.set(path.relative(folder, file), fs.statSync(file).ino);
    }
    const ended = spawnSync(program, args, { cwd: folder, input: "", maxBuffer: 1 << 30 });
    if (ended.error) throw ended.error;
    const written = {};
    for (const name of filesUnder(folder)) {
      const file = path.join(folder, name);
      if (given.get(name) !== fs.statSync(file).ino) written[name] = new Uint8Array(fs.readFileSync(file));
    }
    return { status: ended.status, out: ended.stdout.toString(), err: ended.stderr.toString(), files: written };
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
}

/// The tool of browser/tool.js, done by the program in the file `program`.
function loadNative(program) {
  const found = path.resolve(program);
  return {
    run: (args, files = {}) => runNative(found, args, files),
    runAsync: async (args, files = {}) => runNative(found, args, files),
    stop() {},
  };
}

// What the served page has in place of browser/tool.js.
const standInScript = `"use strict";
const bytesOf = (content) => Array.from(typeof content === "string" ? new TextEncoder().encode(content) : content);
const mapped = (files, change) => Object.fromEntries(Object.entries(files).map(([name, content]) => [name, change(content)]));
function request(args, files, isAsync) {
  const asked = new XMLHttpRequest();
  asked.open("POST", "/run", isAsync);
  const sent = JSON.stringify({ args, files: mapped(files ?? {}, bytesOf) });
  const answer = () => {
    const result = JSON.parse(asked.responseText);
    return { ...result, files: mapped(result.files, (bytes) => Uint8Array.from(bytes)) };
  };
  if (!isAsync) return asked.send(sent), answer();
  return new Promise((resolve) => { asked.onload = () => resolve(answer()); asked.send(sent); });
}
async function loadInlinedTool() {
  return { run: (args, files) => request(args, files, false), runAsync: (args, files) => request(args, files, true), stop() {} };
}
async function unpackInlined() { throw new Error("nothing is packed into this page; it is the stand-in"); }
`;

function serve(program, port, pageFolder) {
  const tool = loadNative(program);
  const kinds = { ".html": "text/html", ".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml" };
  http
    .createServer((request, response) => {
      const name = new URL(request.url, "http://localhost").pathname;
      if (request.method === "POST") {
        const chunks = [];
        request.on("data", (chunk) => chunks.push(chunk));
        request.on("end", () => {
          const { args, files } = JSON.parse(Buffer.concat(chunks).toString());
          const asBytes = (list, change) => Object.fromEntries(Object.entries(list).map(([key, value]) => [key, change(value)]));
          const result = tool.run(args, asBytes(files, (bytes) => Uint8Array.from(bytes)));
          response.end(JSON.stringify({ ...result, files: asBytes(result.files, (bytes) => Array.from(bytes)) }));
        });
        return;
      }
      if (name === "/tool.js") return response.writeHead(200, { "content-type": "text/javascript" }).end(standInScript);
      const file = path.join(pageFolder, path.normalize(name === "/" ? "/page.html" : name));
      if (!fs.existsSync(file)) return response.writeHead(404).end();
      response.writeHead(200, { "content-type": kinds[path.extname(file)] ?? "application/octet-stream" });
      response.end(fs.readFileSync(file));
    })
    .listen(port, "127.0.0.1");
}

if (require.main === module) {
  const [program, port] = process.argv.slice(2);
  if (!port) {
    console.error("usage: node stand_in.cjs PROGRAM PORT");
    process.exit(2);
  }
  serve(program, Number(port), path.join(__dirname, "../../browser/page"));
}

module.exports = { loadNative };
