// The settings that all pages share which take a solo. One that a message of the tool names, or that is set, comes up beside
// the line; the others wait in their drawer.
"use strict";
desk.soloSettings = (() => {
  const isMidi = () => desk.soloGiven() && [".mid", ".midi"].includes(desk.endingOf(desk.soloGiven().name));
  const isAbc = () => desk.soloGiven() && desk.endingOf(desk.soloGiven().name) === ".abc";
  let parts = [];
  const fields = [
    { name: "part", label: "Part of the score", option: "--part", choices: () => [["", "the first with a single line"], ...parts], when: () => parts.length > 1 },
    { name: "voice", label: "Voice of the part", option: "--voice", text: "all in one", when: () => !isMidi() },
    { name: "tune", label: "Tune of the file", option: "--tune", text: "the first", when: isAbc },
    { name: "startBar", label: "Bar of the solo where the changes begin", option: "--start-bar", number: [-999, 9999] },
    { name: "transpose", label: "From written to sounding pitch, in half steps", option: "--transpose", number: [-60, 60], hint: "A B flat tenor part is -14." },
    { name: "changesPitch", label: "The changes are in", option: "--changes-pitch", choices: [["", "concert pitch"], ["written", "the written pitch of the solo"]] },
    { name: "barOne", label: "Bar 1 begins after, in quarter notes", option: "--bar-one", text: "best fit", when: isMidi },
    { name: "asWritten", label: "Read the page once, without repeats", option: "--as-written", check: true, when: () => !isMidi() },
    { name: "salvage", label: "Read what is left of a damaged file", option: "--salvage", check: true, when: isMidi },
    { name: "grid", label: "Note values", option: "--grid", text: "found by itself", hint: "Such as eighths, triplets", when: isMidi },
    { name: "chordTrack", label: "Track with block chords", option: "--chord-track", text: "none", when: isMidi },
    { name: "beats", label: "Where the beats are: a time in seconds a line", lines: true, when: isMidi },
    { name: "section", label: "Only a part of it", option: "--section", text: "all", hint: "Such as 9-16, chorus 2, B" },
    { name: "pitch", label: "Names are given", choices: [["", "as the part reads"], ["concert", "in concert pitch"],
      ...desk.instruments.map((name) => [`for ${name}`, `for ${name.replace("-", " ")}`])] },
    { name: "feel", label: "Eighths", choices: [["", "swing"], ["straight", "are even"]] },
    { name: "strict", label: "Hear each note against the chord that sounds, no anticipations", option: "--strict", check: true },
    { name: "heldTension", label: "A tension counts as held from, in quarter notes", option: "--held-tension", text: "1" },
  ];
  const form = desk.form(desk.byId("solo-options"), fields, () => desk.work.options, () => {
    desk.changed();
    desk.tell("given");
  });
  const asked = desk.byId("asked");
  const drawer = desk.byId("solo-options");

  return {
    refresh: form.refresh,
    parts(list) {
      parts = list;
      form.refresh();
    },
    /// Brings up those of `names`, and those that are set; a control that is being used stays where it is.
    bringUp(names) {
      for (const { name } of fields) {
        const row = form.row(name);
        const place = (names.includes(name) || form.value(name) !== "") ? asked : drawer;
        if (row.parentElement !== place && !row.contains(document.activeElement)) place.append(row);
      }
      form.refresh();
    },
    set(settings) {
      Object.assign(desk.work.options, settings);
      form.refresh();
      desk.changed();
      desk.tell("given");
    },
    /// On the button that puts `settings` right.
    words(settings) {
      if ("startBar" in settings && Object.keys(settings).length === 1) return `Begin the changes at bar ${settings.startBar}`;
      if ("transpose" in settings) return `Move the line by ${settings.transpose}`;
      if (settings.changesPitch === "written") return "The changes are in written pitch";
      if (settings.changesPitch === "") return "The changes are in concert pitch";
      if ("barOne" in settings) return `Begin bar 1 at quarter ${settings.barOne}`;
      if (settings.asWritten) return "Read the page once";
      return settings.salvage ? "Read what is left" : "Do that";
    },
    /// For the command line; `files` gets what they need beside the solo. `few` leaves out what only an analysis knows.
    args(files, few = false) {
      const args = [];
      const onlyAnalysis = ["section", "strict", "heldTension"];
      for (const { name, option, check } of fields) {
        const value = form.value(name);
        if (value === "" || !option || (few && onlyAnalysis.includes(name))) continue;
        args.push(...(check ? [option] : [`${option}=${value}`]));
      }
      if (form.value("beats") !== "") {
        files["beats.txt"] = `${form.value("beats")}\n`;
        args.push("--beats=beats.txt");
      }
      if (few) return args;
      if (form.value("feel") === "straight") args.push("--straight");
      const pitch = form.value("pitch");
      if (pitch === "concert") args.push("--concert");
      if (pitch.startsWith("for ")) args.push(`--for=${pitch.slice(4)}`);
      return args;
    },
  };
})();
