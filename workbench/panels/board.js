// The board in the browser: it shows what the kernel's traits say and sends what the reader does.

const make = (tag, attributes = {}, ...children) => {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  node.append(...children);
  return node;
};

// Keys of a slider: JupyterLab keeps the native ones to itself.
const steps = (key, control) => ({
  ArrowRight: control.step, ArrowUp: control.step, ArrowLeft: -control.step, ArrowDown: -control.step,
  PageUp: 10 * control.step, PageDown: -10 * control.step, Home: -Infinity, End: Infinity,
})[key];

const tidy = (number) => String(Number(number.toFixed(6)));

const RESTARTED = "The kernel was started again: choose Run all.";

// The saved picture's name: what is shown, and how it was set.
const plain = (text) => String(text).toLowerCase().replace(/[^\p{L}\p{N}.]+/gu, "-").replace(/^-|-$/g, "");
const nameOf = (model) => {
  const settings = Object.entries(model.get("held")).map(([name, value]) => `${plain(name)}-${plain(value)}`);
  return [plain(model.get("title")), ...settings].join("_").slice(0, 150) + ".png";
};

// A list to pick from, or a field for words. A refused text stays while the cursor is in its field, to be mended.
function buildWords(model, control, id) {
  const field = control.options
    ? make("select", { id }, ...control.options.map((option) => make("option", { value: option }, option)))
    : make("input", { type: "text", id, autocomplete: "off", spellcheck: "false", class: "wb-words" });
  const value = () => model.get("held")[control.name];
  let refused = null;
  const typed = () => {
    if (field.value === value() || field.value === refused) return;
    refused = field.value;
    model.send({ do: "type", name: control.name, text: field.value });
  };
  field.addEventListener("change", typed);
  field.addEventListener("keydown", (event) => {
    if (event.key === "Enter") typed();
  });
  const show = () => {
    if (control.options || value() === refused || document.activeElement !== field) field.value = value();
    if (value() === refused) refused = null;
    field.disabled = model.get("locked");
  };
  field.addEventListener("blur", show); // left without being mended: what still holds
  return { node: make("div", { class: "wb-worded" }, make("label", { for: id }, control.label), field), show,
    first: field };
}

function buildControl(model, control, id) {
  if (control.step === undefined) return buildWords(model, control, id);
  const slider = make("input", { type: "range", id: `${id}-slider`, min: control.low, max: control.high,
    step: control.step });
  const field = make("input", { type: "text", id: `${id}-field`, inputmode: "decimal", autocomplete: "off",
    "aria-label": `${control.label}, ${control.unit}: type a number` });
  const label = make("label", { for: `${id}-slider` }, control.label);
  const unit = make("span", { class: "wb-unit" }, control.unit);
  // wanted: where the hand is; held: what the picture shows. They differ while the kernel draws or refuses.
  const wanted = () => model.get("values")[control.name];
  const held = () => model.get("held")[control.name];
  const move = (number) => {
    model.set("values", { ...model.get("values"), [control.name]: number });
    model.save_changes();
  };
  slider.addEventListener("input", () => move(Number(slider.value)));
  const stepped = (event) => {
    const by = steps(event.key, control);
    if (by === undefined) return;
    event.preventDefault();
    const number = Math.min(control.high, Math.max(control.low, wanted() + by));
    move(Number(number.toFixed(6)));
  };
  slider.addEventListener("keydown", stepped);
  let typing = false; // the answer to another move leaves alone what is just being typed
  field.addEventListener("input", () => {
    typing = true;
  });
  const typed = () => {
    typing = false;
    if (field.value !== tidy(held())) model.send({ do: "type", name: control.name, text: field.value });
  };
  field.addEventListener("change", typed);
  field.addEventListener("keydown", (event) => {
    if (event.key === "Enter") typed();
    if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      typing = false;
      stepped(event);
    }
  });
  const show = () => {
    slider.value = wanted();
    slider.setAttribute("aria-valuetext", `${tidy(held())} ${control.unit}`);
    if (!typing && field.value !== tidy(held())) field.value = tidy(held());
    slider.disabled = field.disabled = model.get("locked");
  };
  return { node: make("div", { class: "wb-control" }, label, slider, field, unit), show,
    first: slider };
}

function render({ model, el }) {
  const id = `wb-${Math.random().toString(36).slice(2, 9)}`;
  const entry = make("input", { type: "text", id: `${id}-entry`, autocomplete: "off" });
  const commit = make("button", { type: "submit" }, "Commit prediction");
  const form = make("form", { class: "wb-prediction" },
    make("label", { for: `${id}-entry` }, model.get("asks")), entry, commit);
  const image = make("img", { class: "wb-picture", width: 900, height: 400 });
  const waiting = make("p", { class: "wb-waiting" }, "The picture and the controls come with your prediction.");
  const result = make("div", { class: "wb-result" });
  const message = make("p", { class: "wb-message", role: "status" });
  const why = make("p", { class: "wb-why" });
  const reset = make("button", { type: "button" }, "Start again");
  const save = make("a", { class: "wb-save" }, "Save the picture");
  const built = model.get("controls").map((control, n) => buildControl(model, control, `${id}-${n}`));
  const root = make("fieldset", { class: "wb-board", "aria-label": model.get("title"),
    "data-lm-suppress-shortcuts": "true" },
    make("p", { class: "wb-title" }, model.get("title")),
    make("p", { class: "wb-question" }, model.get("question")), form,
    make("div", { class: "wb-controls" }, ...built.map((control) => control.node)), message, result, waiting, image, why,
    make("div", { class: "wb-foot" }, reset, save));
  el.append(root);

  // a key pressed in here is meant for the panel, never for a shortcut of the notebook
  root.addEventListener("keydown", (event) => event.stopPropagation());
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    model.send({ do: "commit", text: entry.value });
  });
  entry.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    model.send({ do: "commit", text: entry.value });
  });
  reset.addEventListener("click", () => {
    entry.value = "";
    model.send({ do: "reset" });
  });

  let address = null;
  const showPicture = () => {
    const bytes = model.get("picture");
    const there = Boolean(bytes && bytes.byteLength);
    const old = address;
    address = there ? URL.createObjectURL(new Blob([bytes], { type: "image/png" })) : null;
    if (there) {
      image.src = address;
      save.href = address;
      save.download = nameOf(model);
    }
    image.hidden = save.hidden = !there;
    waiting.hidden = there;
    if (old) URL.revokeObjectURL(old);
  };
  const showResult = () => {
    result.replaceChildren(...model.get("result").map(([label, text]) =>
      make("div", {}, make("span", {}, label), " ", make("strong", {}, text))));
    result.hidden = !model.get("result").length;
  };
  const showWords = () => {
    image.alt = model.get("alternative");
    message.textContent = model.get("message");
    why.textContent = model.get("why");
    why.hidden = !model.get("why");
  };
  const showValues = () => built.forEach((control) => control.show());
  const showLock = () => {
    const locked = model.get("locked");
    entry.disabled = commit.disabled = !locked;
    reset.hidden = locked;
    if (!locked && !entry.value) entry.value = model.get("prediction");
    showValues();
    if (!locked && root.contains(document.activeElement)) built[0]?.first.focus();
  };
  const watched = { picture: showPicture, result: showResult, alternative: showWords, message: showWords,
    why: showWords, values: showValues, held: showValues, locked: showLock };
  for (const [name, show] of Object.entries(watched)) model.on(`change:${name}`, show);
  // a refused field shows what still holds
  const handed = () => built.forEach((control) => control.show());
  model.on("change:message", handed);
  const lost = () => {
    root.disabled = true; // as a set of fields it takes all of them along
    message.textContent = RESTARTED;
  };
  model.on("comm_live_update", lost);
  showPicture();
  showResult();
  showWords();
  showLock();
  return () => {
    for (const [name, show] of Object.entries(watched)) model.off(`change:${name}`, show);
    model.off("change:message", handed);
    model.off("comm_live_update", lost);
    if (address) URL.revokeObjectURL(address);
  };
}

export default { render };
