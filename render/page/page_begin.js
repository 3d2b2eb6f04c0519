// Last piece: what the reader does, and the beginning.

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
