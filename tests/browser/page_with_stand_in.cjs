// The page of the tool as one file, with the native program in place of the module: for the tests of the page, which can then
// run where no module is built. The policy of its content is as strict as that of the real one.
"use strict";

const { createHash } = require("node:crypto");
const fs = require("node:fs");
const path = require("node:path");
const zlib = require("node:zlib");

const standIn = `"use strict";
async function unpackInlined(id) {
  const packed = Uint8Array.from(atob(document.getElementById(id).textContent), (letter) => letter.charCodeAt(0));
  const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(unpacked).arrayBuffer());
}
async function loadInlinedTool() {
  const bytes = (content) => Array.from(typeof content === "string" ? new TextEncoder().encode(content) : content);
  const mapped = (files, change) => Object.fromEntries(Object.entries(files).map(([name, content]) => [name, change(content)]));
  const runAsync = async (args, files) => {
    const result = await window.runNative(args, mapped(files, bytes));
    return { ...result, files: mapped(result.files, (list) => Uint8Array.from(list)) };
  };
  return { runAsync, stop() {} };
}
`;

const hashOf = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/// The text of the page; `root` is the top of the project, `engraver` the file of the engraver, if it is to draw staves.
function pageWithStandIn(root, engraver = "") {
  const folder = path.join(root, "browser/page");
  const read = (name) => fs.readFileSync(path.join(folder, name), "utf8");
  const styles = [];
  const scripts = [];
  const kept = (list, text) => {
    list.push(hashOf(text));
    return text;
  };
  for (const name of fs.readdirSync(path.join(root, "reports/html"))) {
    const text = name.endsWith(".js") || name.endsWith(".css") ? fs.readFileSync(path.join(root, "reports/html", name), "utf8") : "";
    if (text) (name.endsWith(".js") ? scripts : styles).push(hashOf(text));
  }
  const page = read("page.html")
    .replace(/<link rel="stylesheet" href="([^"]+)">/g, (whole, name) => `<style>${kept(styles, read(name))}</style>`)
    .replace(/<script src="([^"]+)"><\/script>/g, (whole, name) => `<script>${kept(scripts, name === "../tool.js" ? standIn : read(name))}</script>`)
    .replace(/(<script type="text\/plain" id="[^"]+") data-packed="([^"]+)">/g, (whole, head, name) =>
      `${head}>${zlib.gzipSync(fs.readFileSync(path.join(folder, name))).toString("base64")}`)
    .replace(/(id="engraver") data-packed-if-there="[^"]+">/, (whole, head) =>
      `${head}>${engraver ? zlib.gzipSync(fs.readFileSync(engraver)).toString("base64") : ""}`);
  const policy = `default-src 'none'; style-src ${styles.join(" ")}; script-src 'wasm-unsafe-eval' ${scripts.join(" ")}; worker-src blob:; img-src data: blob:; base-uri 'none'; form-action 'none'`;
  return page.replace('<meta charset="utf-8">', `<meta charset="utf-8">\n<meta http-equiv="Content-Security-Policy" content="${policy}">`);
}

module.exports = { pageWithStandIn };
