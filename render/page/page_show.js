// Second piece: the drawing, the tables, what is wrong.

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
