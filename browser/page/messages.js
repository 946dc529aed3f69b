// What the tool says on standard error, as messages with their places and what would put them right.
"use strict";
/// { kind: "error" | "warning", text, file, line, column, where }; `files` are the names that a place can begin with.
desk.messagesOf = (err, files) => {
  const messages = [];
  for (const line of err.split("\n")) {
    const head = /^insideline: (error|warning): (.*)$/.exec(line);
    if (head) messages.push({ kind: head[1], text: head[2], file: "", line: 0, column: 0 });
    else if (line.trim() && !/--help/.test(line) && messages.length && !/^\s*\^/.test(line)) messages[messages.length - 1].where = line.trim();
  }
  for (const message of messages) {
    message.file = files.find((name) => message.text.startsWith(`${name}:`)) ?? "";
    const place = /^:(\d+)(?::(\d+))?: /.exec(message.text.slice(message.file.length));
    if (!message.file || !place) continue;
    message.line = Number(place[1]);
    message.column = Number(place[2] ?? 1);
  }
  return messages;
};

/// What a message asks for, by the options it names: the name of a setting and, where it says one, a value.
desk.asksFor = (text) => {
  const named = {
    "--part": "part", "--track": "part", "--voice": "voice", "--tune": "tune", "--start-bar": "startBar", "--transpose": "transpose",
    "--bar-one": "barOne", "--changes-pitch": "changesPitch", "--as-written": "asWritten", "--salvage": "salvage", "--grid": "grid",
    "--beats": "beats", "--chord-track": "chordTrack", "--section": "section", "--held-tension": "heldTension",
  };
  const values = {
    startBar: /^-?\d+$/, transpose: /^-?\d+$/, barOne: /^-?\d+(\/\d+)?$/, changesPitch: /^written$/,
  };
  const asked = [];
  for (const [, before, option, value] of text.matchAll(/(leave out )?(--[a-z-]+)(?: ([^\s;,]+))?/g)) {
    const name = named[option];
    if (!name) continue;
    const one = { name, value: null };
    if (before) one.value = "";
    else if (values[name]?.test(value ?? "")) one.value = value;
    else if (name === "asWritten" || name === "salvage") one.value = true;
    asked.push(one);
  }
  return asked;
};

/// Shows messages in `host`. `cure(settings)` is offered where a message names values of
/// settings that are among `cures` (all, where it is left out); `go(message)` where it has a place.
desk.showMessages = (host, messages, { cure, cures, words, go } = {}) => {
  const one = (message) => {
    const row = desk.make("p", { className: message.kind },
      desk.make("strong", { textContent: { error: "Not yet: ", warning: "Look: ", hint: "" }[message.kind] ?? "" }), message.text);
    if (go && message.line) row.append(" ", desk.button("Go there", () => go(message)));
    const values = Object.fromEntries(desk.asksFor(message.text)
      .filter(({ name, value }) => value !== null && (!cures || cures.includes(name))).map(({ name, value }) => [name, value]));
    if (cure && Object.keys(values).length) row.append(" ", desk.button(words(values), () => cure(values)));
    return row;
  };
  host.replaceChildren(...messages.map(one));
};
