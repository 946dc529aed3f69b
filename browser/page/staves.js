// Staff notation, drawn in the page where the engraver was packed into it (`scripts/browser --staves`): Verovio, LGPL 3. It is
// unpacked when staves are first asked for, and works beside the page, not in it. To print without any other program.
"use strict";
desk.engraver = (() => {
  const place = desk.byId("engraver");
  let worker = null;
  let asked = 0;
  const waiting = new Map();
  const work = `
    const ready = new Promise((resolve) => { verovio.module.onRuntimeInitialized = resolve; });
    let toolkit = null;
    self.onmessage = async ({ data: { number, score } }) => {
      try {
        await ready;
        toolkit ??= new verovio.toolkit();
        toolkit.setOptions({ pageWidth: 2100, pageHeight: 2970, scale: 38, spacingLinear: 0.4, spacingNonLinear: 0.55,
          breaks: "auto", footer: "none", svgViewBox: true });
        // The engraver prints what a chord symbol has in its text a second time, though the score says not to.
        if (!toolkit.loadData(score.replace(/<degree print-object="no">[^]*?<\\/degree>/g, ""))) throw new Error("the engraver cannot read this score");
        const pages = Array.from({ length: toolkit.getPageCount() }, (unused, i) => toolkit.renderToSVG(i + 1));
        self.postMessage({ number, pages });
      } catch (error) {
        self.postMessage({ number, fault: error.message });
      }
    };`;
  const start = async () => {
    const text = desk.textOf(await unpackInlined("engraver"));
    const address = URL.createObjectURL(new Blob([text, work], { type: "text/javascript" }));
    const one = new Worker(address);
    one.onmessage = ({ data: { number, pages, fault } }) => {
      const { resolve, reject } = waiting.get(number);
      waiting.delete(number);
      if (pages) resolve(pages);
      else reject(new Error(fault));
    };
    one.onerror = ({ message }) => {
      for (const { reject } of waiting.values()) reject(new Error(message || "the engraver does not run in this browser"));
      waiting.clear();
      worker = null;
    };
    return one;
  };
  return {
    isThere: () => place.textContent.trim() !== "",
    /// A promise of the pages of a score in MusicXML, each as the text of an SVG image.
    async draw(score) {
      worker ??= start();
      const one = await worker;
      return new Promise((resolve, reject) => {
        asked += 1;
        waiting.set(asked, { resolve, reject });
        one.postMessage({ number: asked, score });
      });
    },
  };
})();

/// A drawer in `host` with the staves of a score. `choices` are pairs of a name and a function that gives a promise of
/// { score } or { err }; `says` shows what the tool has to say.
desk.staves = (host, name, choices, says) => {
  if (!desk.engraver.isThere()) return { outdated() {} };
  const pages = desk.make("div", { className: "paper" });
  const which = desk.make("select", { attributes: { "aria-label": "What is drawn" } }, ...choices.map(([text], i) => new Option(text, i)));
  const print = desk.button("Print the staves", () => {
    host.classList.add("printed");
    document.body.classList.add("prints-staves");
    window.print();
    document.body.classList.remove("prints-staves");
    host.classList.remove("printed");
  });
  const state = desk.make("p", { className: "soft", attributes: { role: "status" } });
  const drawer = desk.make("details", {}, desk.make("summary", { textContent: "In staff notation, to print" }),
    desk.make("div", { className: "row" }, which, print), state, pages);
  host.append(drawer);

  const clear = () => {
    for (const image of pages.children) URL.revokeObjectURL(image.src);
    pages.replaceChildren();
  };
  const draw = desk.latest(async () => {
    const { score, err } = await choices[Number(which.value)][1]();
    return score ? { drawn: await desk.engraver.draw(score) } : { err };
  }, ({ drawn, err }) => {
    clear();
    state.textContent = "";
    print.disabled = !drawn;
    if (!drawn) return says(err ?? "");
    return pages.append(...drawn.map((svg, i) => desk.make("img", {
      src: URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" })), alt: `${name} in staff notation, page ${i + 1} of ${drawn.length}`,
    })));
  });
  const drawIfOpen = () => {
    if (!drawer.open) return clear();
    state.textContent = "Drawing …";
    return draw();
  };
  drawer.addEventListener("toggle", drawIfOpen);
  which.addEventListener("change", drawIfOpen);
  return { outdated: desk.afterPause(300, drawIfOpen) };
};
