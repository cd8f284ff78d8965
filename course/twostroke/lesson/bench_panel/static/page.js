// Joins the panel of this page to the bench over one wire; after a cut or a reload it asks for the job that it had.
import panel from "/bench.js";

const state = { name: "Bench", regions: { screen: "start" }, focus: "", say: "" };
const watchers = {};
const cut = document.getElementById("cut");
let line = null;
let waiting = [];

const model = {
  get: (name) => state[name],
  on: (event, call) => { (watchers[event] = watchers[event] || []).push(call); },
  off: () => {},
  send: (message) => {
    const text = JSON.stringify(message);
    if (line && line.readyState === WebSocket.OPEN) line.send(text);
    else waiting.push(text);
  },
};

function join(again) {
  line = new WebSocket(`${location.protocol === "https:" ? "wss" : "ws"}://${location.host}/line`);
  line.addEventListener("open", () => {
    cut.hidden = true;
    const job = sessionStorage.getItem("bench-job");
    if (job) line.send(JSON.stringify({ press: "attach", values: { job } }));
    waiting.splice(0).forEach((text) => line.send(text));
  });
  line.addEventListener("message", (event) => {
    const news = JSON.parse(event.data);
    if ("job" in news && (news.job || state.attached)) sessionStorage.setItem("bench-job", news.job);
    if (news.job) state.attached = true;
    for (const name of ["regions", "focus", "say"]) {
      if (!(name in news)) continue;
      state[name] = news[name];
      (watchers[`change:${name}`] || []).forEach((call) => call());
    }
  });
  line.addEventListener("close", () => {
    state.attached = false;
    cut.hidden = false;
    setTimeout(() => join(true), again ? 2000 : 300);
  });
}

panel.render({ model, el: document.getElementById("bench") });
join(false);
