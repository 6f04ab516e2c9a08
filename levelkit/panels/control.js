// One control: a labelled native range input, a typed value with its unit, and a message line.
// Native inputs carry keyboard, touch and screen-reader behaviour; the kernel keeps the rules.
let serial = 0;

function shown(model) {
  const text = model.get("value").toFixed(model.get("decimals")).replace("-", "\u2212");
  return model.get("decimal_mark") === "," ? text.replace(".", ",") : text;
}

function render({ model, el }) {
  const id = `lk-control-${Math.random().toString(36).slice(2)}`; // each widget loads its own copy
  el.classList.add("lk-control");
  const label = document.createElement("label");
  label.htmlFor = id;
  label.className = "lk-name";
  const range = document.createElement("input");
  range.type = "range";
  range.id = id;
  const entry = document.createElement("input");
  entry.type = "text";
  entry.inputMode = "decimal";
  entry.className = "lk-entry";
  const unit = document.createElement("span");
  unit.className = "lk-unit";
  const message = document.createElement("div");
  message.className = "lk-message";
  message.setAttribute("role", "status");
  el.append(label, range, entry, unit, message);

  function describe() {
    const [name, unitText] = [model.get("name"), model.get("unit")];
    label.textContent = name;
    unit.textContent = unitText;
    range.dataset.name = name;
    entry.setAttribute("aria-label", `${name}, typed value${unitText ? " in " + unitText : ""}`);
    range.min = model.get("minimum");
    range.max = model.get("maximum");
    range.step = model.get("step");
    range.disabled = entry.disabled = model.get("disabled");
    show();
  }
  function show() {
    if (Number(range.value) !== model.get("value")) range.value = model.get("value");
    range.setAttribute("aria-valuetext", `${shown(model)} ${model.get("unit")}`);
    if (document.activeElement !== entry) entry.value = shown(model);
  }
  function complain() {
    message.textContent = model.get("message");
    entry.setAttribute("aria-invalid", model.get("message") ? "true" : "false");
  }
  function typed() {
    if (entry.value === shown(model)) return;
    model.set("typed", { text: entry.value, serial: ++serial });
    model.save_changes();
  }
  range.addEventListener("input", () => {
    model.set("value", Number(range.value));
    model.save_changes();
    entry.value = shown(model);
    range.setAttribute("aria-valuetext", `${shown(model)} ${model.get("unit")}`);
  });
  entry.addEventListener("change", typed);
  entry.addEventListener("keydown", (event) => {
    if (event.key === "Enter") typed();
    if (event.key === "Escape") entry.value = shown(model);
  });
  const names = ["name", "unit", "minimum", "maximum", "step", "decimals", "decimal_mark",
    "disabled"];
  for (const name of names) model.on(`change:${name}`, describe);
  model.on("change:value", () => {
    show();
    if (!model.get("message")) entry.value = shown(model);
  });
  model.on("change:message", complain);
  describe();
  complain();
}

export default { render };
