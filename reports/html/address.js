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
        history.replaceState(history.state, "", hash());
      } catch {
        // Some frames have no address of their own: then there is no link, and all else works.
      }
      document.dispatchEvent(new CustomEvent("address", { detail: hash() }));
    },
    hash,
  };
})();
