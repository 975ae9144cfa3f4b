"use strict";
// One stage at a time, boxes that count down, and ticks that wait while the network is gone. No size is worked out here.

const by = (id) => document.getElementById(id);
const all = (what, within = document) => [...within.querySelectorAll(what)];
const token = document.querySelector('meta[name="bench-token"]').content, mark = document.body.dataset.mark;
document.documentElement.classList.add("js");

// -- where one is ------------------------------------------------------------------------------------

const stages = all(".stage");
const here = () => stages.find((stage) => "#" + stage.id === location.hash) || stages.find((stage) => all('.box[aria-pressed="false"]', stage).length) || stages[0];
const go = (isAsked) => {
  const stage = here();
  if (!stage) return;
  stages.forEach((one) => one.classList.toggle("here", one === stage));
  all("nav a").forEach((one) => { if (one.dataset.tasks === stage.id) one.setAttribute("aria-current", "step"); else one.removeAttribute("aria-current"); });
  if (isAsked) { document.querySelector("nav details").open = false; stage.focus({ preventScroll: true }); stage.scrollIntoView(); }
};
window.addEventListener("hashchange", () => go(true));

// -- ticks -------------------------------------------------------------------------------------------

// What is ticked and not yet taken by the bench, so that a phone that is switched off forgets nothing.
const place = "waiting " + location.pathname;
const read = () => { try { return JSON.parse(localStorage.getItem(place)) || {}; } catch { return {}; } };
let waiting = read();
const wait = () => { try { localStorage.setItem(place, JSON.stringify(waiting)); } catch { /* kept in this page then */ } };
const boxes = new Map(all(".box").map((box) => [box.dataset.key, box]));

const count = () => {
  let left = 0;
  for (const stage of stages) {
    const of = all(".box", stage), open = of.filter((box) => box.getAttribute("aria-pressed") !== "true").length;
    left += open;
    stage.querySelector(".left").textContent = open ? `${open} of ${of.length} left` : "all done";
    const link = document.querySelector(`nav a[data-tasks="${stage.id}"]`);
    if (link) link.classList.toggle("all", !open);
  }
  if (stages.length) by("left").textContent = left ? `${left} of ${boxes.size} left` : "All of it is done.";
};
const draw = (done) => {
  for (const [key, box] of boxes) {
    const isDone = key in waiting ? waiting[key] : done.has(key);
    box.setAttribute("aria-pressed", isDone ? "true" : "false");
    box.classList.toggle("waits", key in waiting);
  }
  count();
};
let taken = new Set(all('.box[aria-pressed="true"]').map((box) => box.dataset.key));
const show = (state) => {
  by("line").hidden = true;
  taken = new Set(state.done);
  by("changed").hidden = state.mark === mark;
  draw(taken);
};
const fail = (said) => { by("refused").textContent = said; by("refused").hidden = !said; };

let busy = false;
const send = async () => {
  if (busy) return;
  busy = true;
  const sent = { ...waiting }, has = Object.keys(sent).length;
  try {
    const answer = has
      ? await fetch("ticks", { method: "POST", headers: { "X-Bench-Token": token, "Content-Type": "application/json" }, body: JSON.stringify(sent) })
      : await fetch("ticks");
    if (answer.ok) {
      for (const key of Object.keys(sent)) if (waiting[key] === sent[key]) delete waiting[key];
      wait();
      const state = await answer.json();
      show(state);
      fail(state.strange ? "Some ticks are for work that the job no longer asks for; they were not taken." : "");
    } else if (answer.status === 403) {
      by("changed").hidden = false;
    } else if (answer.status !== 429) {
      fail((await answer.text()).slice(0, 300));
      if (answer.status === 400) { waiting = {}; wait(); }
    }
  } catch {
    by("line").hidden = false;
    draw(taken);
  }
  busy = false;
};
document.addEventListener("click", (event) => {
  const box = event.target.closest(".box"), out = event.target.closest(".out");
  if (box) waiting[box.dataset.key] = box.getAttribute("aria-pressed") !== "true";
  else if (out) { waiting[out.dataset.key] = false; out.closest("li").remove(); }
  else if (event.target.id === "again") { location.reload(); return; }
  else return;
  wait(); draw(taken); send();
});
setInterval(send, 2000);
window.addEventListener("online", send);

// -- test pieces -------------------------------------------------------------------------------------

document.addEventListener("submit", async (event) => {
  event.preventDefault();
  const form = event.target, right = form.querySelector(".right"), said = [];
  for (const field of all("input", form)) {
    if (!field.value.trim()) continue;
    const asked = new URLSearchParams({ card: form.dataset.card, measured: field.name, found: field.value, mark });
    try { said.push(await (await fetch("right?" + asked)).text()); }
    catch { said.push("No network: put it right by the words on the printed card."); }
  }
  right.textContent = said.join("\n") || "Write what callipers show.";
});

// -- the screen stays awake where the browser can ------------------------------------------------------

const stayAwake = async () => { try { if (document.visibilityState === "visible") await navigator.wakeLock.request("screen"); } catch { /* it can't */ } };
document.addEventListener("visibilitychange", stayAwake);
stayAwake();

draw(taken);
go(false);
send();
