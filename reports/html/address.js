// Bars, view and loop in the page's own address, behind the #, so that a link leads to just this place. Nothing is kept
// anywhere else.
"use strict";
window.insideline = window.insideline || {};
insideline.address = (() => {
  const read = () => {
    const text = location.hash.slice(1);
    return text.includes("=") ? Object.fromEntries(new URLSearchParams(text)) : {};
  };
  let values = read();
  const readers = [];
  const hash = () => `#${new URLSearchParams(values).toString().replaceAll("%2C", ",")}`;
  // A frame that is given its text has the address of the page around it: a link would lead out of it.
  const isOwn = location.protocol !== "about:";
  addEventListener("hashchange", () => {
    if (!location.hash.includes("=")) return; // a link within the page
    values = read();
    for (const reader of readers) reader(values);
  });
  return {
    // `reader` is told what the address says, now and whenever it is changed by hand.
    follow(reader) {
      readers.push(reader);
      reader(values);
    },
    // A value that is empty leaves the address.
    set(changes) {
      for (const [name, value] of Object.entries(changes)) {
        if (value === "" || value === null || value === undefined) delete values[name];
        else values[name] = String(value);
      }
      try {
        if (isOwn) history.replaceState(history.state, "", hash());
      } catch {
        // Some frames may not change theirs: then there is no link, and all else works.
      }
      document.dispatchEvent(new CustomEvent("address", { detail: hash() }));
    },
    hash,
    isOwn,
  };
})();
// An element with its settings and what is in it.
insideline.make = (tag, settings = {}, ...children) => {
  const element = Object.assign(document.createElement(tag), settings);
  element.append(...children);
  return element;
};
// What the page was before any script of it changed it: a page with remarks is written from that.
if (document.getElementById("bar-remarks"))
  insideline.pristine = [...document.body.children].filter((element) => !element.matches("script")).map((element) => element.outerHTML).join("");
