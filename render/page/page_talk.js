// The page of `leat try`, first of four pieces that CMake joins: what is known, talking to leat. leat itself
// computes and draws; here is only what turns and shows.
"use strict";

const element = (id) => document.getElementById(id);
const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const view = { month: "", case: "needs", broken: "" };
let state = null;       // as the server told last
let chosen = "";        // id of the place or pipe looked at
let sizes = [];         // pipe sizes sold
let comparing = false;
let asked = 0;          // number of the last question, so that late answers are left aside
let busy = false;       // an edit is on its way
let waiting = null;     // the edit to be sent after it
const anchors = new Map();  // first value of each amount: the middle of its slider

const query = (more = {}) => new URLSearchParams({ ...view, ...more }).toString();

async function get(what) {
  const answer = await fetch(what, { cache: "no-store" });
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}

async function post(what, body) {
  const answer = await fetch(what, { method: "POST", body: JSON.stringify(body),
    headers: { "Content-Type": "application/json" } });
  return { status: answer.status, body: await answer.json() };
}

async function refresh() {
  const number = ++asked;
  try {
    const fresh = await get("state?" + query());
    if (number === asked) show(fresh);
  } catch (error) {
    lost();
  }
}

function lost() {
  element("gone").hidden = false;
  element("gone").textContent =
    "leat does not answer. If it was ended, start it again and open the address it prints.";
}

/** Sends changes one after the other; of those a slider makes meanwhile only the last. */
async function edit(edits, continued) {
  if (busy) {
    waiting = [edits, continued];
    return;
  }
  busy = true;
  const number = ++asked;
  try {
    const answer = await post("edit", { edits, continued, view });
    if (answer.status === 200) {
      refuse("");
      if (number === asked) show(answer.body);
    } else {
      refuse(answer.body.refused || answer.body.problem, edits);
    }
  } catch (error) {
    lost();
  }
  busy = false;
  if (waiting !== null) {
    const next = waiting;
    waiting = null;
    edit(...next);
  }
}

async function undo() {
  if (element("undo").disabled) return;
  const number = ++asked;
  try {
    const answer = await post("undo", { view });
    refuse("");
    if (number === asked) show(answer.body);
  } catch (error) {
    lost();
  }
}

/** Waits for changes of the file, and of other pages that look at it. */
async function follow() {
  for (;;) {
    try {
      const now = await get("wait?since=" + (state === null ? 0 : state.version));
      if (!element("gone").hidden) element("gone").hidden = true;
      if (state === null || (now.version !== state.version && !busy)) await refresh();
      if (busy) await new Promise((done) => setTimeout(done, 50));
    } catch (error) {
      lost();
      await new Promise((done) => setTimeout(done, 2000));
    }
  }
}
