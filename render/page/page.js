// The page of `leat try`. leat itself computes and draws; here is only what turns and shows.
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

// ---- talking to leat

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
    } catch (error) {
      lost();
      await new Promise((done) => setTimeout(done, 2000));
    }
  }
}

// ---- making parts of the page

function make(tag, words = "", attributes = {}) {
  const made = document.createElement(tag);
  made.textContent = words;
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}

function fill(id, parts) {
  element(id).replaceChildren(...parts);
}

function picture(svg) {
  const drawn = document.importNode(
    new DOMParser().parseFromString(svg, "image/svg+xml").documentElement, true);
  const box = (drawn.getAttribute("viewBox") || "").split(/[ ,]+/).map(Number);
  if (box.length === 4) drawn.dataset.width = box[2];
  drawn.removeAttribute("width");
  drawn.removeAttribute("height");
  return drawn;
}

function choose(select, options, value) {
  const key = JSON.stringify(options);
  if (select.dataset.options !== key) {
    select.dataset.options = key;
    select.replaceChildren(...options.map(([word, text]) => make("option", text, { value: word })));
  }
  if (document.activeElement !== select) select.value = value;
}

// ---- what is shown

function show(fresh) {
  const before = state;
  state = fresh;
  document.title = state.farm + ": trying out";
  element("farm").textContent = state.farm;
  const count = state.changes.length;
  element("standing").textContent = state.file + (count === 0 ? ", as saved"
    : count === 1 ? ", 1 change not saved" : `, ${count} changes not saved`);
  const counted = (severity) => {
    const found = (state.flags || []).filter((flag) => flag.severity === severity).length;
    return found === 0 ? "" : `; ${found} ${severity}${found === 1 ? "" : "s"}`;
  };
  element("standing").textContent += counted("danger") + counted("caution");
  element("undo").disabled = state.undo_steps === 0;
  element("compare").disabled = count === 0;
  element("notice").hidden = state.notice === null;
  element("notice").textContent = state.notice || "";
  element("broken").hidden = state.broken_file === null;
  element("broken_text").textContent = state.broken_file || "";
  show_view();
  element("stale").hidden = state.problem === null;
  element("stale").textContent =
    state.problem === null ? "" : "What is drawn is from before. " + state.problem;
  if (!state.items.some((item) => item.id === chosen)) chosen = first_choice();
  if (state.svg !== null) show_drawing();
  if (state.tables) {
    element("situation").textContent = state.situation;
    show_tables();
    show_flags();
    fill("mind", state.mind.map((words) => make("li", words)));
    speak(before);
  }
  show_compared();
  show_chosen();
}

function show_view() {
  const now = state.view;
  const own = now.month === null ? "all alike"
    : now.month_chosen ? `${now.month} (the driest)` : "the driest";
  choose(element("month"), [["", own], ...months.map((month) => [month, month])], view.month);
  choose(element("float"), [["", "none"], ...now.troughs.map((name) => [name, name])], view.broken);
  choose(element("case"), [["needs", "what each trough needs"], ["wide", "every float wide open"],
    ["static", "every end shut"]], view.case);
}

function first_choice() {
  const alarmed = (state.flags || []).find((flag) => flag.severity !== "note");
  const named = alarmed && state.items.find((item) => item.name === alarmed.where);
  const turned = state.items.find((item) => item.controls.some((one) => one.input === "valve"));
  return (named || turned || state.items[0]).id;
}

function show_drawing() {
  const held = document.activeElement && document.activeElement.closest("#drawing .node");
  const box = element("drawing");
  const drawn = picture(state.svg);
  drawn.setAttribute("role", "group");
  drawn.setAttribute("aria-label", "The farm drawn: " + state.situation);
  for (const node of drawn.querySelectorAll("g.node")) {
    const item = state.items.find((one) => one.id === node.id);
    if (!item) continue;
    node.setAttribute("tabindex", "0");
    node.setAttribute("role", "button");
    // The words seen come first, so that who speaks to the machine can call the box by them.
    const seen = [...node.querySelectorAll("text")].map((line) => line.textContent.trim());
    node.setAttribute("aria-label", `${seen.join(" ")}, ${item.kind}`);
    node.setAttribute("aria-pressed", String(item.id === chosen));
    node.classList.toggle("chosen", item.id === chosen);
    node.addEventListener("click", () => take(item.id));
    node.addEventListener("keydown", (press) => {
      if (press.key === "Enter" || press.key === " ") {
        press.preventDefault();
        take(item.id);
      }
    });
  }
  for (const line of drawn.querySelectorAll("g.edge")) line.setAttribute("aria-hidden", "true");
  for (const title of drawn.querySelectorAll("title")) title.remove();
  box.replaceChildren(drawn);
  fit_drawing();
  if (held) element(held.id)?.focus();
}

/** Letters of the drawing are 10 of its own units high. */
function fit_drawing() {
  const box = element("drawing");
  const drawn = box.querySelector("svg");
  if (!drawn) return;
  const large = box.classList.contains("large");
  drawn.style.width = large ? `${drawn.dataset.width * 1.8}px` : "";
  element("size").textContent = large ? "Whole farm" : "Larger letters";
}

function show_tables() {
  fill("tables", state.tables.filter((table) => table.rows.length > 0).map((table) => {
    const made = document.createElement("table");
    made.append(make("caption", table.caption));
    const head = document.createElement("tr");
    for (const words of ["", ...table.columns]) head.append(make("th", words, { scope: "col" }));
    const top = document.createElement("thead");
    top.append(head);
    const body = document.createElement("tbody");
    for (const row of table.rows) body.append(table_row(row));
    made.append(top, body);
    const scroll = make("div", "", { class: "scroll" });
    scroll.append(made);
    return scroll;
  }));
}

function table_row(row) {
  const made = document.createElement("tr");
  const item = state.items.find((one) => one.name === row.name && one.kind === row.kind);
  made.className = row.alarm + (item && item.id === chosen ? " of_chosen" : "");
  const name = make("th", "", { scope: "row" });
  const button = make("button", row.name, { type: "button" });
  button.addEventListener("click", () => take(item.id));
  name.append(button);
  made.append(name);
  row.cells.forEach((cell, index) => {
    const shown = make("td", cell);
    if (comparing && row.was !== null && row.was[index] !== cell) {
      shown.append(make("span", "was " + row.was[index], { class: "was" }));
    }
    made.append(shown);
  });
  return made;
}

function flag_line(flag, before) {
  const line = make("li", "", { class: flag.severity });
  line.append(make("b", before || flag.severity), " " + flag.text);
  return line;
}

function show_flags() {
  const mark = (flag) => flag_line(flag, comparing && flag.is_new ? flag.severity + ", new" : "");
  const grave = state.flags.filter((flag) => flag.severity !== "note");
  const notes = state.flags.filter((flag) => flag.severity === "note");
  fill("flags", grave.length > 0 ? grave.map(mark)
    : [make("li", "Nothing amiss that leat checks.")]);
  fill("notes", notes.map(mark));
  element("notes_box").hidden = notes.length === 0;
}

/** Tells a screen reader which places changed their state. */
function speak(before) {
  if (before === null || !before.tables) return;
  const states = (from) => new Map(from.tables.flatMap((table) =>
    table.rows.map((row) => [row.name, row.cells[row.cells.length - 1]])));
  const old = states(before);
  const changed = [...states(state)].filter(([name, words]) => old.get(name) !== words);
  element("spoken").textContent = changed.map(([name, words]) => `${name}: ${words}`).join(". ");
}

function show_compared() {
  if (state.changes.length === 0) comparing = false;
  element("compare").setAttribute("aria-pressed", String(comparing));
  element("compared").hidden = !comparing;
  if (!comparing) return;
  const table = document.createElement("table");
  const head = document.createElement("tr");
  for (const words of ["changed", "in the file", "now"]) head.append(make("th", words, { scope: "col" }));
  const top = document.createElement("thead");
  top.append(head);
  const body = document.createElement("tbody");
  for (const change of state.changes) {
    const row = document.createElement("tr");
    row.append(make("th", change.path.slice(1).join(", ") || change.path.join(", "), { scope: "row" }),
      make("td", change.was ?? "not there"), make("td", change.now ?? "taken out"));
    body.append(row);
  }
  table.append(top, body);
  const gone = make("ul", "", { class: "flags" });
  for (const flag of state.gone || []) {
    if (flag.severity !== "note") gone.append(flag_line(flag, "no longer"));
  }
  fill("changes", [table, gone]);
}

// ---- the place or pipe looked at

function take(id) {
  chosen = id;
  refuse("");
  for (const node of document.querySelectorAll("#drawing .node")) {
    node.classList.toggle("chosen", node.id === id);
    node.setAttribute("aria-pressed", String(node.id === id));
  }
  if (state.tables) show_tables();
  show_chosen();
  const told = element("chosen").getBoundingClientRect();
  if (told.top < 0 || told.top > window.innerHeight * 0.7) {
    element("chosen").scrollIntoView({ block: "start" });
  }
}

function show_chosen() {
  const item = state.items.find((one) => one.id === chosen);
  const name = (one) => (one.kind === "pipe" ? "pipe " : "") + one.name;
  choose(element("pick"), state.items.map((one) => [one.id, name(one)]), chosen);
  element("chosen_title").textContent = item.kind === "pipe" ? `Pipe: ${item.name}`
    : `${item.name}, ${item.kind}`;
  element("facts").textContent = item.facts.slice(item.kind === "pipe" ? 1 : 0).join("; ");
  const first = (one) => (one.input === "valve" ? 0 : one.input === "size" ? 1 : 2);
  show_controls("controls", item,
    item.controls.filter((one) => !one.aside).sort((a, b) => first(a) - first(b)));
  const aside = item.controls.filter((one) => one.aside);
  show_controls("aside", item, aside);
  element("aside_box").hidden = aside.length === 0;
  element("new_valve").hidden = item.kind !== "pipe" ||
    item.controls.some((one) => one.input === "valve");
  show_profile(item);
}

/** Keeps what is there while the same things can be turned, so that a slider is not lost under the
    hand; makes them anew otherwise. */
function show_controls(where, item, list) {
  const box = element(where);
  const key = JSON.stringify([item.id, list.map((one) => [one.path, one.input, one.ball])]);
  if (box.dataset.key !== key) {
    box.dataset.key = key;
    box.replaceChildren(...list.map(make_control));
  }
  list.forEach((one, index) => box.children[index].update(one));
}

function make_control(one, index) {
  const box = make("div", "", { class: "control" });
  const id = "control_" + one.path.join("_").replace(/[^A-Za-z0-9_]/g, "-") + (one.aside ? "_a" : "");
  box.append(make("label", one.label, { for: id }));
  const makers = { valve: valve_control, size: size_control, choice: choice_control,
    amount: amount_control, text: amount_control };
  box.update = makers[one.input](box, id, one);
  return box;
}

function share(text) {
  const fraction = /^(\d+)\/(\d+)$/.exec(text);
  if (fraction) return fraction[1] / fraction[2];
  return text.includes("%") ? parseFloat(text) / 100 : parseFloat(text);
}

/** Shut, then the openings the valve's table goes through. */
function valve_control(box, id, one) {
  const parts = one.ball ? 9 : 8;
  const least = one.ball ? 3 : 1;
  const last = parts - least + 1;
  const opening = (stop) => {
    const reduced = [8, 4, 3, 2].find((by) => parts % by === 0 && (stop + least - 1) % by === 0) || 1;
    return stop === last ? "1" : `${(stop + least - 1) / reduced}/${parts / reduced}`;
  };
  const words = (stop) => stop === 0 ? "shut" : stop === last ? "fully open"
    : `${opening(stop)} open`;
  const shown = make("span", "", { class: "shown" });
  const slider = make("input", "", { type: "range", id, min: 0, max: last, step: 1 });
  const ends = make("div", "", { class: "ends", "aria-hidden": "true" });
  ends.append(make("span", "shut"), make("span", "fully open"));
  box.append(shown, slider, ends);
  let turning = false;
  slider.addEventListener("input", () => {
    const stop = Number(slider.value);
    const at = (key, text) => ({ path: [...one.path, key], text });
    edit(stop === 0 ? [at("open", null), at("shut", "yes")]
      : [at("shut", null), at("open", opening(stop))], turning);
    turning = true;
    shown.textContent = words(stop);
    slider.setAttribute("aria-valuetext", words(stop));
  });
  slider.addEventListener("change", () => { turning = false; });
  return (now) => {
    const stop = now.shut ? 0 : Math.max(1, Math.round(share(now.text) * parts) - least + 1);
    if (document.activeElement !== slider || !busy) slider.value = stop;
    const exact = Math.abs(share(now.text) * parts - (stop + least - 1)) < 1e-6;
    const said = now.shut || exact ? words(stop) : `${now.text} open`;
    shown.textContent = said;
    slider.setAttribute("aria-valuetext", said);
  };
}

function size_control(box, id, one) {
  const select = make("select", "", { id });
  box.append(select);
  select.addEventListener("change", () => edit([{ path: one.path, text: select.value }], false));
  return (now) => {
    const own = sizes.find((size) => now.text.toLowerCase().startsWith(size.name.toLowerCase()));
    const like = sizes.filter((size) => own && size.system === own.system);
    const rest = sizes.filter((size) => !own || size.system !== own.system);
    const options = [...like, ...rest].map((size) => [size.name, size.name]);
    if (!options.some(([name]) => name === now.text)) options.unshift([now.text, now.text]);
    choose(select, options, now.text);
    select.value = now.text;
  };
}

function choice_control(box, id, one) {
  const select = make("select", "", { id });
  box.append(select);
  select.addEventListener("change", () => edit([{ path: one.path, text: select.value }], false));
  return (now) => {
    const words = now.words.includes(now.text) ? now.words : [now.text, ...now.words];
    choose(select, words.map((word) => [word, word]), now.text);
  };
}

const level_words = ["overflow", "intake", "surface", "floor", "float", "level", "elevation", "ends",
  "spills"];
const level_spans = { ft: 10, m: 3 };

/** A number with its unit, or null for what a slider cannot say ("1 gal in 16 s"). */
function amount(text) {
  const found = /^(-?\d+(?:\.\d+)?)\s*([^\d]*)$/.exec(text.trim());
  return found ? { value: Number(found[1]), unit: found[2].trim() } : null;
}

function slider_range(one, anchor) {
  const is_level = level_words.includes(one.path[one.path.length - 1]) ||
    (one.path[0] === "tees" && one.path.length === 2);
  const span = is_level ? level_spans[anchor.unit] : Math.abs(anchor.value);
  if (!span) return null;
  const step = 10 ** Math.floor(Math.log10(span / 12));
  const least = is_level ? anchor.value - span : step;
  return { least: Math.round(least / step) * step, most: anchor.value + span, step,
    decimals: Math.max(0, -Math.floor(Math.log10(step))) };
}

function amount_control(box, id, one) {
  const field = make("input", "", { type: "text", id, autocomplete: "off", spellcheck: "false" });
  box.append(field);
  const send = (text, continued) => edit([{ path: one.path, text }], continued);
  field.addEventListener("change", () => send(field.value.trim(), false));
  const place = JSON.stringify(one.path);
  if (!anchors.has(place)) anchors.set(place, amount(one.text));
  const anchor = anchors.get(place);
  const range = anchor && !one.aside && one.input === "amount" ? slider_range(one, anchor) : null;
  let slider = null;
  if (range) {
    slider = make("input", "", { type: "range", min: range.least, max: range.most, step: "any",
      "aria-label": one.label + ", slider" });
    let turning = false;
    const words = () => {
      const rounded = Math.round(slider.value / range.step) * range.step;
      return `${rounded.toFixed(range.decimals)} ${anchor.unit}`.trim();
    };
    slider.addEventListener("input", () => {
      field.value = words();
      send(words(), turning);
      turning = true;
    });
    slider.addEventListener("keydown", (press) => {
      const steps = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 }[press.key];
      if (!steps) return;
      press.preventDefault();
      slider.value = Number(slider.value) + steps * range.step;
      slider.dispatchEvent(new Event("input"));
    });
    slider.addEventListener("change", () => { turning = false; });
    slider.addEventListener("blur", () => { turning = false; });
    box.append(slider);
  }
  return (now) => {
    const is_untouched = field.value.trim() === field.dataset.told;
    field.dataset.told = now.text;
    if (document.activeElement !== field || is_untouched || field.value.trim() === now.text) {
      field.value = now.text;
      field.removeAttribute("aria-invalid");
    }
    if (slider && document.activeElement !== slider) {
      const value = amount(now.text);
      if (value && value.unit === anchor.unit) slider.value = value.value;
    }
    if (slider) slider.setAttribute("aria-valuetext", now.text);
  };
}

/** A change leat would not take: its own words. What is shown stays. */
function refuse(words, edits) {
  const box = element("refused");
  box.hidden = !words;
  box.replaceChildren();
  if (!words) return;
  box.append(make("strong", "This cannot be. The farm stays as it was."), make("pre", words));
  const field = edits && document.getElementById("control_" +
    edits[0].path.join("_").replace(/[^A-Za-z0-9_]/g, "-"));
  if (field) field.setAttribute("aria-invalid", "true");
}

let profile_asked = 0;

async function show_profile(item) {
  const box = element("profile");
  if (item.kind !== "pipe" || state.problem !== null) {
    box.hidden = true;
    box.dataset.key = "";
    return;
  }
  const key = JSON.stringify([item.name, state.version, view]);
  if (box.dataset.key === key) return;
  box.dataset.key = key;
  const number = ++profile_asked;
  await new Promise((done) => setTimeout(done, box.hidden ? 0 : 120));
  if (number !== profile_asked) return;
  try {
    const told = await get("profile?" + query({ pipe: item.name }));
    if (number !== profile_asked) return;
    box.hidden = false;
    element("profile_words").textContent = told.words;
    element("profile_problem").textContent = told.problem || "";
    if (told.svg !== null) {
      const drawn = picture(told.svg);
      drawn.setAttribute("role", "img");
      drawn.setAttribute("aria-label", "Profile of " + told.words + "; the table below says the same");
      fill("profile_picture", [drawn]);
    } else {
      fill("profile_picture", []);
    }
    fill("profile_said", told.sentences.map((words) => make("li", words)));
    const table = document.createElement("table");
    const head = document.createElement("tr");
    for (const words of told.columns) head.append(make("th", words, { scope: "col" }));
    const top = document.createElement("thead");
    top.append(head);
    const body = document.createElement("tbody");
    for (const row of told.rows) {
      const line = document.createElement("tr");
      for (const cell of row) line.append(make("td", cell));
      body.append(line);
    }
    table.append(top, body);
    fill("profile_table", [table]);
  } catch (error) {
    box.hidden = true;
  }
}

// ---- what the reader does

element("undo").addEventListener("click", undo);
document.addEventListener("keydown", (press) => {
  // In a field that holds what was typed and not yet sent, the browser's own undo is meant.
  const field = press.target;
  const in_text = field.matches("#save_name") ||
    (field.matches("input[type=text]") && field.value.trim() !== field.dataset.told);
  if ((press.ctrlKey || press.metaKey) && press.key === "z" && !in_text) {
    press.preventDefault();
    undo();
  }
});
element("compare").addEventListener("click", () => {
  comparing = !comparing;
  if (state.tables) {
    show_tables();
    show_flags();
  }
  show_compared();
});
element("size").addEventListener("click", () => {
  element("drawing").classList.toggle("large");
  fit_drawing();
});
element("view").addEventListener("change", () => {
  view.month = element("month").value;
  view.case = element("case").value;
  view.broken = element("float").value;
  refresh();
});
element("view").addEventListener("submit", (send) => send.preventDefault());
element("pick").addEventListener("change", () => take(element("pick").value));
element("valve_in").addEventListener("click", () => {
  const item = state.items.find((one) => one.id === chosen);
  const at = (key, text) => ({ path: ["pipes", item.name, "valve", key], text });
  edit([at("type", element("valve_type").value), at("open", "1"),
    at("at", element("valve_at").value)], false);
});
element("save").addEventListener("click", () => {
  element("save_name").value = state.new_name;
  element("save_where").textContent =
    `The new file is put beside ${state.file}, which stays as it is.`;
  element("save_problem").textContent = "";
  element("save_box").showModal();
  element("save_name").select();
});
element("save_not").addEventListener("click", () => element("save_box").close());
element("save_form").addEventListener("submit", async (send) => {
  send.preventDefault();
  try {
    const answer = await post("save", { name: element("save_name").value.trim() });
    if (answer.status === 200) {
      element("save_box").close();
      element("notice").hidden = false;
      element("notice").textContent = `Saved as ${answer.body.saved}. ${state.file} is as it was.`;
    } else {
      element("save_problem").textContent = answer.body.problem;
    }
  } catch (error) {
    element("save_problem").textContent = "leat does not answer; nothing was saved.";
  }
});

async function begin() {
  try {
    sizes = await get("sizes");
  } catch (error) {
    lost();
  }
  await refresh();
  if (state !== null) {
    const drawn = element("drawing").querySelector("svg");
    if (drawn && element("drawing").clientWidth < 0.9 * drawn.dataset.width) {
      element("size").click();  // a narrow screen begins with letters that can be read
    }
    fill("key", state.key.map((words, index) => {
      const line = make("li");
      line.append(make("span", "", { class: "k" + index }), words);
      return line;
    }));
  }
  follow();
}

begin();
