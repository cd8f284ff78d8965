// Draws the parts that Python lists, with native elements only, and reports what the reader does.
// No judgement and no physics here: both live in Python.

const make = (tag, attributes = {}, ...children) => {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (name === "html") node.innerHTML = value;
    else if (name in node && typeof value === "boolean") node[name] = value;
    else node.setAttribute(name, value);
  }
  for (const child of children) if (child) node.append(child);
  return node;
};

function render({ model, el }) {
  const uid = `tsb-${Math.random().toString(36).slice(2, 10)}`; // one module instance a widget: a counter would repeat
  const shown = new Map(); // key -> {text, node}
  let patience = 0;

  const body = make("div", { class: "tsb-parts" });
  const live = make("div", { class: "tsb-live", "aria-live": "polite", role: "status" });
  const slow = make("p", { class: "tsb-slow", hidden: true });
  slow.textContent =
    "No answer from the kernel yet. If it is not busy, choose Run, then Run All Cells, and try again; what was kept stays kept.";
  const root = make("section", { class: `tsb tsb-${model.get("look")}`, "aria-label": model.get("name") }, body, slow, live);
  el.replaceChildren(root);

  const wait = () => {
    clearTimeout(patience);
    patience = setTimeout(() => { slow.hidden = false; }, 10000);
  };
  const answered = () => {
    clearTimeout(patience);
    slow.hidden = true;
  };
  const keep = (key, value) => {
    model.set("values", { ...model.get("values"), [key]: value });
    model.save_changes();
  };
  const press = (name) => {
    wait();
    model.send({ press: name, values: model.get("values") });
  };
  const valueOf = (part) => model.get("values")[part.key];
  const message = (part, id) =>
    part.message ? make("div", { class: `tsb-message tsb-${part.tone || "plain"}`, id, html: part.message }) : null;

  const kinds = {
    text: (part) => make("div", { class: `tsb-text tsb-${part.tone || "plain"}`, html: part.html }),

    choice: (part, id) => {
      const legend = make("legend", { html: part.legend });
      const set = make("fieldset", { disabled: !!part.locked, "aria-describedby": part.message ? `${id}-m` : null }, legend);
      part.options.forEach(([value, html], row) => {
        const input = make("input", { type: "radio", name: id, id: `${id}-${row}`, value, "data-focus": `${part.key}-${row}` });
        input.checked = valueOf(part) === value;
        input.addEventListener("change", () => keep(part.key, value));
        set.append(make("div", { class: "tsb-option" }, input, make("label", { for: `${id}-${row}`, html })));
      });
      const note = message(part, `${id}-m`);
      if (note) set.append(note);
      return set;
    },

    entry: (part, id) => {
      const input = make("input", {
        type: "text", id, autocomplete: "off", spellcheck: "false", disabled: !!part.locked, placeholder: part.hint || null,
        "aria-describedby": part.message ? `${id}-m` : null, "aria-invalid": part.tone === "look" ? "true" : null,
        "data-focus": part.key,
      });
      input.value = valueOf(part) ?? "";
      input.addEventListener("input", () => keep(part.key, input.value));
      input.addEventListener("keydown", (event) => { if (event.key === "Enter" && part.press) press(part.press); });
      if (part.eager) input.addEventListener("change", () => press(part.press));
      return make("div", { class: "tsb-entry" }, make("label", { for: id, html: part.label }), input, message(part, `${id}-m`));
    },

    pick: (part, id) => {
      const select = make("select", { id, disabled: !!part.locked, "aria-describedby": part.message ? `${id}-m` : null, "data-focus": part.key });
      select.append(make("option", { value: "" }));
      for (const [value, text] of part.options) {
        const option = make("option", { value });
        option.textContent = text;
        select.append(option);
      }
      select.value = valueOf(part) ?? "";
      select.addEventListener("change", () => {
        keep(part.key, select.value);
        if (part.eager && select.value) press(part.press);
      });
      return make("div", { class: "tsb-entry" }, make("label", { for: id, html: part.label }), select, message(part, `${id}-m`));
    },

    range: (part, id) => {
      const limits = { min: part.low, max: part.high, step: part.step };
      const slider = make("input", { type: "range", id, ...limits, "data-focus": part.key });
      const box = make("input", {
        type: "number", id: `${id}-n`, ...limits, "aria-label": `${part.label}, type the number, in ${part.unit}`,
        "aria-describedby": `${id}-m`, "data-focus": `${part.key}-n`,
      });
      const note = make("p", { class: "tsb-message tsb-look", id: `${id}-m`, hidden: true });
      note.textContent = `Give a number from ${part.low} to ${part.high} ${part.unit}.`;
      const show = (value) => {
        slider.value = value;
        slider.setAttribute("aria-valuetext", `${slider.value} ${part.unit}`);
      };
      show(valueOf(part));
      box.value = valueOf(part);
      slider.addEventListener("input", () => {
        show(slider.value);
        box.value = slider.value;
        box.removeAttribute("aria-invalid");
        note.hidden = true;
        keep(part.key, Number(slider.value));
      });
      box.addEventListener("input", () => {
        const value = Number(box.value);
        const good = box.value !== "" && value >= part.low && value <= part.high;
        note.hidden = good;
        if (!good) return box.setAttribute("aria-invalid", "true");
        box.removeAttribute("aria-invalid");
        show(value);
        keep(part.key, value);
      });
      const label = make("label", { for: id, html: part.label });
      return make("div", { class: "tsb-range" }, label, slider, make("span", { class: "tsb-box" }, box, document.createTextNode(` ${part.unit}`)), note);
    },

    order: (part) => {
      const list = make("ol", { class: "tsb-order" });
      const items = new Map(part.items);
      const order = valueOf(part) ?? part.items.map(([name]) => name);
      const move = (place, way) => {
        const next = [...order];
        [next[place], next[place + way]] = [next[place + way], next[place]];
        keep(part.key, next);
        paint(part.key, `${part.key}-${next[place + way]}-${way < 0 ? "up" : "down"}`);
        speak(`${items.get(next[place + way]).replace(/<[^>]*>/g, "")}: now step ${place + way + 1} of ${next.length}`);
      };
      order.forEach((name, place) => {
        const plain = items.get(name).replace(/<[^>]*>/g, "");
        const button = (way, word, sign) => {
          const end = way < 0 ? place === 0 : place === order.length - 1;
          const node = make("button", {
            type: "button", "aria-label": `Move ${word}: ${plain}`, "aria-disabled": end ? "true" : null,
            disabled: !!part.locked, "data-focus": `${part.key}-${name}-${word}`,
          });
          node.textContent = sign;
          node.addEventListener("click", () => { if (!end) move(place, way); });
          return node;
        };
        const mark = (part.marked || {})[name];
        list.append(make("li", { class: mark ? `tsb-${mark}` : null },
          make("span", { class: "tsb-step", html: items.get(name) }), button(-1, "up", "▲"), button(1, "down", "▼")));
      });
      return make("fieldset", { class: "tsb-orderset" }, make("legend", { html: part.legend }), list);
    },

    picture: () => make("div", { class: "tsb-picture", html: model.get("picture") }),

    buttons: (part) => {
      const row = make("div", { class: "tsb-buttons" });
      for (const [name, text, main] of part.buttons) {
        const node = make("button", { type: "button", class: main ? "tsb-main" : null, "data-focus": `button-${name}` });
        node.textContent = text;
        node.addEventListener("click", () => press(name));
        row.append(node);
      }
      return row;
    },
  };

  function paint(force, focus) {
    const active = root.contains(document.activeElement) ? document.activeElement.dataset.focus : null;
    const wanted = model.get("parts");
    const nodes = wanted.map((part) => {
      const text = JSON.stringify(part);
      const old = shown.get(part.key);
      if (old && old.text === text && part.key !== force) return old.node;
      const node = kinds[part.kind](part, `${uid}-${part.key}`);
      shown.set(part.key, { text, node });
      return node;
    });
    const same = nodes.length === body.children.length && nodes.every((node, row) => node === body.children[row]);
    if (!same) body.replaceChildren(...nodes);
    const back = focus || active;
    if (back && !same) {
      const target = root.querySelector(`[data-focus="${CSS.escape(back)}"]:not([disabled])`);
      if (target) target.focus({ preventScroll: true });
      else {
        body.setAttribute("tabindex", "-1");
        body.focus({ preventScroll: true });
      }
    }
  }
  function paintPicture() {
    answered();
    const place = body.querySelector(".tsb-picture");
    if (place) place.innerHTML = model.get("picture");
  }
  function paintWords() {
    answered();
    for (const place of body.querySelectorAll("[data-words]")) place.textContent = model.get("words");
    clearTimeout(speak.later);
    speak.later = setTimeout(() => speak(model.get("words")), 700);
  }
  function speak(text) {
    live.textContent = "";
    setTimeout(() => { live.textContent = text; }, 60);
  }
  const paintParts = () => { answered(); paint(); };
  const paintSay = () => { answered(); speak(model.get("say").replace(/\u200b/g, "")); };

  // JupyterLab takes arrow keys, Enter and letters for its own; inside a control they belong to the control. Saving stays.
  const ownKeys = (event) => {
    if (!root.contains(event.target)) return;
    const save = (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s";
    event.target.toggleAttribute("data-lm-suppress-shortcuts", !save);
  };
  window.addEventListener("keydown", ownKeys, true);

  paint();
  model.on("change:parts", paintParts);
  model.on("change:picture", paintPicture);
  model.on("change:words", paintWords);
  model.on("change:say", paintSay);
  return () => {
    clearTimeout(patience);
    window.removeEventListener("keydown", ownKeys, true);
    model.off("change:parts", paintParts);
    model.off("change:picture", paintPicture);
    model.off("change:words", paintWords);
    model.off("change:say", paintSay);
  };
}

export default { render };
