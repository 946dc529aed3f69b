// Makes one file of the page: everything it names is put into it, and it may load nothing else.
//
//   node browser/pack.cjs BUILD_FOLDER OUTPUT
//
// BUILD_FOLDER has the module, insideline.js and insideline.wasm. What page.html may name is said in tool.js.
"use strict";

const { createHash } = require("node:crypto");
const fs = require("node:fs");
const path = require("node:path");
const { gzipSync } = require("node:zlib");

const pageFolder = path.join(__dirname, "page");
const reportsFolder = path.join(__dirname, "../reports/html");

function fail(message) {
  console.error(`pack: error: ${message}`);
  process.exit(1);
}

/// The file that the page names: beside it, or built.
function fileNamed(name, buildFolder) {
  const found = [path.join(pageFolder, name), path.join(buildFolder, name)].find((file) => fs.existsSync(file));
  return found ?? fail(`page.html names "${name}", which is neither in ${pageFolder} nor in ${buildFolder}`);
}

const hashOf = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/// A script or style inside an element, which its text must not end.
function inElement(kind, attributes, text) {
  if (kind === "style" && /<\//.test(text)) fail("a style sheet has \"</\" in it");
  const harmless = text.replaceAll("\r\n", "\n").replaceAll("</script", "<\\/script").replaceAll("<!--", "<\\!--");
  return { text: harmless, html: `<${kind}${attributes}>${harmless}</${kind}>` };
}

/// The hashes of the scripts or styles in the pages of the reports: shown in a frame, they keep to this page's policy as well.
const hashesOfReports = (ending) =>
  fs.readdirSync(reportsFolder).filter((name) => name.endsWith(ending)).sort()
    .map((name) => hashOf(fs.readFileSync(path.join(reportsFolder, name), "utf8")));

const packed = (file) => gzipSync(fs.readFileSync(file), { level: 9 }).toString("base64");

/// The page with every file it names inside. `scripts` and `styles` get the hashes of what may run.
function inlined(html, buildFolder, scripts, styles) {
  const textOf = (name) => fs.readFileSync(fileNamed(name, buildFolder), "utf8");
  const script = (name, attributes) => {
    const element = inElement("script", attributes, textOf(name));
    scripts.add(hashOf(element.text));
    return element.html;
  };
  return html
    .replace(/<link rel="stylesheet" href="([^":]+)">/g, (_whole, name) => {
      const element = inElement("style", "", textOf(name));
      styles.add(hashOf(element.text));
      return element.html;
    })
    .replace(/<script src="([^":]+)"><\/script>/g, (_whole, name) => {
      if (name !== "../tool.js") return script(name, "");
      const module = `<script type="text/plain" id="insideline-module">${packed(fileNamed("insideline.wasm", buildFolder))}</script>`;
      return `${module}\n${script("insideline.js", ' id="insideline-glue"')}\n${script(name, "")}`;
    })
    .replace(/(<script type="text\/plain" id="[^"]+") data-packed="([^"]+)"><\/script>/g,
      (_whole, start, name) => `${start}>${packed(fileNamed(name, buildFolder))}</script>`)
    .replace(/(<script type="text\/plain" id="[^"]+") data-packed-if-there="([^"]+)"><\/script>/g, (_whole, start, name) => {
      const file = path.join(buildFolder, name);
      return `${start}>${fs.existsSync(file) ? packed(file) : ""}</script>`;
    });
}

function pack(buildFolder, output) {
  const scripts = new Set(hashesOfReports(".js"));
  const styles = new Set(hashesOfReports(".css"));
  const html = inlined(fs.readFileSync(path.join(pageFolder, "page.html"), "utf8"), buildFolder, scripts, styles);
  const left = html.replace(/<(script|style)\b[\s\S]*?<\/\1>/g, "<$1>").match(/<[^>]*\b(src|href)="(?!#|data:)[^"]*"[^>]*>/);
  if (left) fail(`the page would load something: ${left[0]}`);
  const policy =
    `default-src 'none'; script-src 'wasm-unsafe-eval' ${[...scripts].join(" ")}; style-src ${[...styles].join(" ")}; ` +
    "worker-src blob:; img-src data: blob:; frame-src 'self' blob:; base-uri 'none'; form-action 'none'";
  const charset = '<meta charset="utf-8">\n';
  if (!html.includes(charset)) fail("page.html does not begin with its encoding");
  const page = html.replace(charset, () => `${charset}<meta http-equiv="Content-Security-Policy" content="${policy}">\n`);
  fs.writeFileSync(output, page);
  console.log(`${output}: ${(page.length / 1e6).toFixed(2)} MB`);
}

const [buildFolder, output] = process.argv.slice(2);
if (!output) fail("give the folder of the build and the file to write");
pack(buildFolder, output);
