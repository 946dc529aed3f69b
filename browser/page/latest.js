// One run at a time and the latest wish only: what is overtaken is never shown.
"use strict";
/// `work(...)` gives a promise, `done(result, ...)` shows it. The returned function asks for a run with these values.
desk.latest = (work, done) => {
  let busy = false;
  let waiting = null;
  const go = async (values) => {
    busy = true;
    let result = null;
    try {
      result = await work(...values);
    } catch (error) {
      result = { status: 1, out: "", err: `insideline: error: ${error.message}\n`, files: {} };
    }
    busy = false;
    if (waiting === null) return done(result, ...values);
    const next = waiting;
    waiting = null;
    return go(next);
  };
  return (...values) => {
    if (busy) waiting = values;
    else go(values);
  };
};
