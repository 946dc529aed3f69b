// The teacher's own remarks on bars: shown with the bar, and kept in the file of the page by writing a new one.
"use strict";
(() => {
  const { map, loop, make, pristine } = insideline;
  const host = document.getElementById("bar-remarks");
  const source = document.getElementById("data");
  if (!map || !host) return;
  const { bars, remarks: written = [] } = map.data;
  const remarks = new Map(written); // by the index of the bar
  let saved = true;
  const inOrder = () => [...remarks].sort(([a], [b]) => a - b);
  const nameOf = (bar) => (bars[bar][0] < 1 ? "Pickup" : `Bar ${bars[bar][0]}`);

  const list = make("ul", { className: "remark-list" });
  const bar = make("input", { type: "number", id: "remark-bar", min: bars[0][0], max: bars[bars.length - 1][0] });
  const text = make("textarea", { id: "remark-text", rows: 2, maxLength: 2000 });
  const keep = make("button", { type: "button", id: "remark-keep", textContent: "Put it on the page" });
  const download = make("button", { type: "button", id: "remark-download", textContent: "Download the page with its remarks" });
  const status = make("p", { id: "remark-status", className: "soft" });
  status.setAttribute("role", "status");
  host.append(make("h3", { textContent: "Remarks on bars" }), list,
    make("details", { id: "remark-form" }, make("summary", { textContent: "Write a remark" }),
      make("p", { className: "remark-fields" }, make("label", {}, "Bar ", bar), make("label", {}, "What to hear or to try there ", text)),
      make("p", { className: "remark-fields" }, keep, download), status));

  // A sign at the end of the bar, over its chords.
  const shape = (name, attributes) => {
    const element = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    return element;
  };
  const signs = () => {
    for (const old of document.querySelectorAll(".remark-sign")) old.remove();
    for (const [index, words] of remarks) {
      const piece = map.pieceNow(index);
      const x = map.xOf(piece, bars[index][1] + bars[index][2]) - 20;
      const sign = shape("g", { class: "remark-sign", "aria-hidden": "true", transform: `translate(${x} 3)` });
      const title = shape("title", {});
      title.textContent = words;
      sign.append(title, shape("path", { d: "M0 1.5A1.5 1.5 0 0 1 1.5 0H13.5A1.5 1.5 0 0 1 15 1.5V8.5A1.5 1.5 0 0 1 13.5 10H7L3.5 13.5V10H1.5A1.5 1.5 0 0 1 0 8.5Z" }));
      piece.svg.append(sign);
    }
  };
  const listed = () => {
    list.replaceChildren(...inOrder().map(([index, words]) => {
      const go = make("button", { type: "button", textContent: nameOf(index) });
      go.addEventListener("click", () => {
        loop.chooseBars(index, index, loop.again);
        map.pieceOf(index).svg.scrollIntoView({ block: "center" });
      });
      return make("li", {}, go, make("span", { textContent: words }));
    }));
    list.hidden = remarks.size === 0;
  };
  // The remark of the bar that is chosen or sounds, beside the player.
  const said = make("p", { id: "remark-said", hidden: true });
  document.querySelector(".dock-row")?.before(said);
  const say = (index) => {
    said.hidden = !remarks.has(index);
    said.textContent = said.hidden ? "" : `${nameOf(index)}: ${remarks.get(index)}`;
  };
  const chosenBar = () => {
    const numbered = bars.findIndex(([number]) => number === Number(bar.value));
    return bar.value !== "" && numbered >= 0 ? numbered : null;
  };
  const fields = () => {
    text.value = remarks.get(chosenBar()) ?? "";
  };
  const show = () => {
    signs();
    listed();
    host.classList.toggle("none", remarks.size === 0);
  };
  const follow = () => {
    const { first } = loop.edges();
    say(loop.chosen.kind === "whole" ? -1 : first);
    if (host.contains(document.activeElement) && text.value !== "") return; // somebody is writing
    bar.value = bars[first][0];
    fields();
  };

  keep.addEventListener("click", () => {
    const index = chosenBar();
    if (index === null) {
      status.textContent = `There is no bar ${bar.value}: they go from ${bars[0][0]} to ${bars[bars.length - 1][0]}.`;
      return;
    }
    const words = text.value.trim();
    if (words) remarks.set(index, words);
    else remarks.delete(index);
    saved = false;
    status.textContent = `${nameOf(index)} ${words ? "has its remark" : "has no remark"}. It lasts when you download the page.`;
    show();
    follow();
  });
  bar.addEventListener("input", fields);

  // The page as it came, with the remarks in its data.
  const page = () => {
    const kept = JSON.parse(source.textContent);
    kept.remarks = inOrder();
    const json = JSON.stringify(kept).replaceAll("<", "\\u003c");
    const scripts = [...document.body.children].filter((element) => element.matches("script"))
      .map((script) => (script === source ? `<script type="application/json" id="data">${json}<\/script>` : `<script>${script.textContent}<\/script>`));
    return `<!DOCTYPE html>\n<html lang="${document.documentElement.lang}">${document.head.outerHTML}<body>${pristine}${scripts.join("")}</body></html>\n`;
  };
  const fileName = () => {
    const own = decodeURIComponent(location.pathname.split("/").pop() || "").replace(/\.html?$/i, "");
    return `${(own && own !== "srcdoc" ? own : "solo").replace(/-with-remarks$/, "")}-with-remarks.html`;
  };
  download.addEventListener("click", () => {
    const address = URL.createObjectURL(new Blob([page()], { type: "text/html" }));
    make("a", { href: address, download: fileName() }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60000);
    saved = true;
    status.textContent = `The new page is ${fileName()}.`;
  });
  addEventListener("beforeunload", (event) => {
    if (!saved) event.preventDefault();
  });
  document.addEventListener("bar-sounds", ({ detail }) => say(detail));
  map.onCut(signs);
  loop.onChange(follow);
  show();
  follow();
})();
