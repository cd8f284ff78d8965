// Puts the regions that Python writes in their places and reports presses. No judgement and no physics here.

const ORDER = ["start", "ticket", "strip", "message", "drawing", "work", "reading", "possible", "log", "help", "report"];

function collect(form) {
  const values = {};
  for (const field of form.elements) {
    if (!field.name || field.tagName === "BUTTON") continue;
    if (field.hasAttribute("data-many")) {
      values[field.name] = values[field.name] || [];
      if (field.checked) values[field.name].push(field.value);
    } else if (field.type === "radio") {
      if (field.checked) values[field.name] = field.value;
    } else values[field.name] = field.value;
  }
  return values;
}

function render({ model, el }) {
  const shown = {};
  const places = {};
  let patience = 0;
  let asked = "";

  const make = (tag, name) => Object.assign(document.createElement(tag), { className: name });
  const live = make("div", "bt-away");
  live.setAttribute("role", "status");
  live.setAttribute("aria-live", "polite");
  const slow = make("p", "bt-note");
  slow.hidden = true;
  slow.textContent = "No answer yet. If nothing comes, open the page again (or run the notebook's cells again): the job is kept after each step.";
  const page = make("div", "bt-page");
  for (const name of ORDER) {
    places[name] = make("div", `bt-region bt-${name}`);
    page.append(places[name]);
  }
  const root = make("section", "bt");
  root.setAttribute("aria-label", model.get("name"));
  root.append(slow, page, live);
  el.replaceChildren(root);

  const press = (name, values = {}) => {
    clearTimeout(patience);
    patience = setTimeout(() => { slow.hidden = false; }, name === "score" ? 60000 : 10000);
    model.send({ press: name, values });
  };
  const speak = (text) => {
    live.textContent = "";
    setTimeout(() => { live.textContent = text; }, 60);
  };
  const find = (name) => root.querySelector(`[data-focus="${CSS.escape(name)}"]`);
  const show = (target) => {
    if (!target) return;
    target.focus({ preventScroll: true });
    const whole = target.closest(".bt-region") || target;
    if (whole.offsetHeight < 0.8 * window.innerHeight) whole.scrollIntoView({ block: "nearest" });
    const top = target.getBoundingClientRect().top;
    if (top < 90) target.scrollIntoView({ block: "start" });  // 90: the strip on top
    else if (top > 0.8 * window.innerHeight) target.scrollIntoView({ block: "center" });
  };

  function paint() {
    clearTimeout(patience);
    slow.hidden = true;
    const regions = model.get("regions");
    const active = root.contains(document.activeElement) ? document.activeElement.getAttribute("data-focus") : null;
    const folds = [...root.querySelectorAll("details[open] > summary")].map((one) => one.getAttribute("data-focus"));
    page.className = `bt-page bt-on-${regions.screen}`;
    let changed = false;
    for (const name of ORDER) {
      const html = regions[name] || "";
      if (shown[name] === html) continue;
      shown[name] = html;
      places[name].innerHTML = html;
      places[name].hidden = !html;
      changed = true;
    }
    if (!changed) return;
    for (const name of folds) {
      const summary = name && find(name);
      if (summary) summary.parentElement.open = true;
    }
    if (active && !root.contains(document.activeElement)) {
      const same = find(active);
      if (same) same.focus({ preventScroll: true });
    }
    const wanted = root.querySelector("[data-ask]");
    const question = wanted ? wanted.getAttribute("data-ask") : "";
    if (question && question !== asked) setTimeout(() => press(question), 50);
    asked = question;
    root.dispatchEvent(new CustomEvent("bt-painted", { bubbles: true }));
  }
  const point = () => show(find(model.get("focus").split("#")[0]));

  root.addEventListener("click", (event) => {
    const target = event.target.closest("[data-press]");
    if (!target || target.tagName === "FORM") return;
    press(target.getAttribute("data-press"), {
      ...(target.hasAttribute("data-form") ? collect(target.form) : {}), value: target.getAttribute("data-value") || "", action: target.getAttribute("data-action") || "",
    });
  });
  root.addEventListener("submit", (event) => {
    event.preventDefault();
    const values = collect(event.target);
    if (event.submitter && event.submitter.name) values[event.submitter.name] = event.submitter.value;
    press(event.target.getAttribute("data-press"), values);
  });
  root.addEventListener("change", (event) => {
    const name = event.target.getAttribute("data-change");
    if (!name) return;
    const form = event.target.closest("form");
    press(name, form ? collect(form) : { value: event.target.value });
  });
  root.addEventListener("keydown", (event) => {
    const spot = event.target.closest(".bt-spot");
    if (!spot) return;
    const spots = [...root.querySelectorAll(".bt-spot")];
    const here = spots.indexOf(spot);
    const to = { ArrowRight: here + 1, ArrowDown: here + 1, ArrowLeft: here - 1, ArrowUp: here - 1, Home: 0, End: spots.length - 1 }[event.key];
    if (to !== undefined) {
      const next = spots[(to + spots.length) % spots.length];
      spots.forEach((one) => one.setAttribute("tabindex", one === next ? "0" : "-1"));
      next.focus();
      event.preventDefault();
    } else if (event.key === "Enter" || event.key === " ") {
      press("pick", { value: spot.getAttribute("data-value") });
      event.preventDefault();
    }
  });
  // JupyterLab takes letters and arrow keys for its own; inside the panel they belong to the panel. Saving stays.
  const ownKeys = (event) => {
    if (!root.contains(event.target)) return;
    const save = (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s";
    event.target.toggleAttribute("data-lm-suppress-shortcuts", !save);
  };
  window.addEventListener("keydown", ownKeys, true);
  const say = () => speak(model.get("say").replace(/\u200b/g, ""));

  paint();
  model.on("change:regions", paint);
  model.on("change:focus", point);
  model.on("change:say", say);
  return () => {
    clearTimeout(patience);
    window.removeEventListener("keydown", ownKeys, true);
    model.off("change:regions", paint);
    model.off("change:focus", point);
    model.off("change:say", say);
  };
}

export default { render };
