// Third piece: the place or pipe looked at, and what can be turned on it.

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
    if (slider && (document.activeElement !== slider || !busy)) {
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
