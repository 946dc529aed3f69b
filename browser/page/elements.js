// What every part of the page is made of. All parts hang on one name, `desk`.
"use strict";
const desk = {};
desk.byId = (id) => document.getElementById(id);
desk.make = (tag, settings = {}, ...children) => {
  const { attributes = {}, ...properties } = settings;
  const element = Object.assign(document.createElement(tag), properties);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...children);
  return element;
};
desk.button = (text, act) => {
  const button = desk.make("button", { type: "button", textContent: text });
  button.addEventListener("click", act);
  return button;
};
/// Calls `act` when `milliseconds` have gone by without another call.
desk.afterPause = (milliseconds, act) => {
  let timer = 0;
  return (...values) => {
    clearTimeout(timer);
    timer = setTimeout(act, milliseconds, ...values);
  };
};
/// Listeners by name, so that the parts need not know each other: desk.on("solo", act), desk.tell("solo").
desk.listeners = {};
desk.on = (what, act) => (desk.listeners[what] ??= []).push(act);
desk.tell = (what) => { for (const act of desk.listeners[what] ?? []) act(); };
