// Settings as labelled controls, bound to an object of values: a value that is empty is not set.
"use strict";
desk.instruments = ["flute", "oboe", "clarinet", "bass-clarinet", "bassoon", "soprano-sax", "alto-sax", "tenor-sax", "baritone-sax",
  "trumpet", "flugelhorn", "horn", "trombone", "bass-trombone", "euphonium", "tuba", "violin", "viola", "cello", "double-bass", "guitar",
  "vibraphone", "piano", "voice"];

/// `fields` are { name, label, choices | number | text | check | lines, hint, when }; `values()` gives the object to read and write.
desk.form = (host, fields, values, onChange) => {
  const rows = new Map();
  const control = (field, id) => {
    if (field.choices) return desk.make("select", { id });
    if (field.lines) return desk.make("textarea", { id, rows: 3, spellcheck: false });
    if (field.check) return desk.make("input", { id, type: "checkbox" });
    if (field.number) return desk.make("input", { id, type: "number", min: field.number[0], max: field.number[1], step: field.step ?? 1 });
    return desk.make("input", { id, type: "text", size: 12, autocomplete: "off", spellcheck: false, placeholder: field.text ?? "" });
  };
  const fillChoices = (select, choices) => select.replaceChildren(...choices.map(([value, text]) => new Option(text, value)));
  const visible = (field) => !field.when || field.when(values());
  const form = {
    refresh() {
      for (const { field, input, row } of rows.values()) {
        const value = values()[field.name];
        if (field.choices) fillChoices(input, typeof field.choices === "function" ? field.choices() : field.choices);
        if (field.check) input.checked = value === true;
        else if (input !== document.activeElement || field.choices) input.value = typeof value === "string" ? value : "";
        if (field.choices && input.selectedIndex < 0) input.selectedIndex = 0;
        row.hidden = !visible(field);
      }
    },
    row: (name) => rows.get(name)?.row,
    /// The value of a setting that is shown; "" where it is not set.
    value(name) {
      const { field } = rows.get(name);
      const value = values()[name];
      if (!visible(field) || value === undefined || value === false) return "";
      return typeof value === "string" ? value.trim() : value;
    },
  };
  for (const field of fields) {
    const id = `${host.id}-${field.name}`;
    const input = control(field, id);
    const label = desk.make("label", { htmlFor: id, textContent: field.label });
    const row = desk.make("div", { className: field.check ? "field check" : "field" }, ...(field.check ? [input, label] : [label, input]));
    if (field.hint) {
      label.after(desk.make("span", { className: "hint", id: `${id}-hint`, textContent: field.hint }));
      input.setAttribute("aria-describedby", `${id}-hint`);
    }
    input.addEventListener(field.choices || field.check ? "change" : "input", () => {
      values()[field.name] = field.check ? input.checked : input.value;
      form.refresh();
      onChange(field.name);
    });
    rows.set(field.name, { field, input, row });
    host.append(row);
  }
  form.refresh();
  return form;
};
