// Files that come in and go out: by choosing, by dropping, by saving.
"use strict";
/// A name that is safe in the folder the tool works in: no folder of its own, no option, not hidden.
desk.safeName = (name) => name.replace(/[/\\\u0000-\u001f]/g, "_").replace(/^[-.\s]+/, "_").slice(-120) || "file";
desk.stemOf = (name) => name.replace(/\.[^.]*$/, "") || name;
desk.endingOf = (name) => (/\.[^.]*$/.exec(name) ?? [""])[0].toLowerCase();
desk.bytesOf = async (file) => ({ name: desk.safeName(file.name), bytes: new Uint8Array(await file.arrayBuffer()) });
desk.textOf = (bytes) => new TextDecoder().decode(bytes);

/// Bytes as text that survives in JSON, and back.
desk.packed = (bytes) => {
  let letters = "";
  for (let i = 0; i < bytes.length; i += 8192) letters += String.fromCharCode(...bytes.subarray(i, i + 8192));
  return btoa(letters);
};
desk.unpacked = (text) => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));

desk.save = (name, content) => {
  const link = desk.make("a", { download: name, href: URL.createObjectURL(new Blob([content])) });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
};

/// Hands the chosen or dropped files to `take`, as { name, bytes }.
desk.takesFiles = (input, drop, take) => {
  const hand = async (list) => {
    try {
      const files = await Promise.all([...list].map(desk.bytesOf));
      if (files.length) await take(files);
    } catch (error) {
      desk.complain(`The file could not be read: ${error.message}`);
    }
  };
  input.addEventListener("change", async () => {
    await hand(input.files);
    input.value = ""; // the same file can be chosen again when it has changed
  });
  if (!drop) return;
  for (const kind of ["dragenter", "dragover"])
    drop.addEventListener(kind, (event) => {
      event.preventDefault();
      drop.classList.add("over");
    });
  drop.addEventListener("dragleave", () => drop.classList.remove("over"));
  drop.addEventListener("drop", (event) => {
    event.preventDefault();
    event.stopPropagation();
    drop.classList.remove("over");
    hand(event.dataTransfer.files);
  });
};
