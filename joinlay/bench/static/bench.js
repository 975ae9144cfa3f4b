"use strict";
// What HTML can't say: keys, the caret, zoom, and a word before the page is closed.

const by = (id) => document.getElementById(id);
const press = (id) => { const button = by(id); if (button && !button.disabled) button.click(); };

// -- keys ------------------------------------------------------------------------------------------

document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  if (key === "s") { event.preventDefault(); whenSent(() => press("keep")); }
  else if (key === "z") { event.preventDefault(); whenSent(() => press(event.shiftKey ? "redo" : "undo")); }
  else if (key === "y") { event.preventDefault(); whenSent(() => press("redo")); }
});

// What was typed a moment ago is on its way; keeping and undoing wait for it.
let typed = false, waiting = [];
const whenSent = (act) => { if (typed) waiting.push(act); else act(); };
const sent = () => { typed = false; const acts = waiting; waiting = []; acts.forEach((act) => act()); };
document.addEventListener("input", (event) => { if (event.target.closest("#pane")) { typed = true; if (event.target.id === "text") drawGutter(); } });
document.addEventListener("htmx:afterRequest", (event) => {
  if (event.detail.elt.closest("#pane") && event.detail.xhr.status) sent();
});

// What the page asks by itself is out of date once something was changed since: the next time tells it.
let changes = 0;
document.addEventListener("htmx:beforeRequest", (event) => {
  if (event.detail.requestConfig.verb === "post") changes += 1;
  event.detail.xhr.asked = changes;
});
// Told by the element that asked: what it was to be put in may be gone.
document.addEventListener("htmx:beforeOnLoad", (event) => {
  if (event.detail.pathInfo.requestPath.startsWith("/pulse") && event.detail.xhr.asked !== changes) event.preventDefault();
});

window.addEventListener("beforeunload", (event) => {
  if (typed || (by("unkept") && by("unkept").value)) event.preventDefault();
});

// -- the text --------------------------------------------------------------------------------------

// What is written is put in afresh only where something else than typing changed it: then the place one was at is found again.
// A button that moves, adds or takes out says what one is at afterwards.
let caret = null, then = "";
document.addEventListener("click", (event) => { const button = event.target.closest("[data-then]"); then = button ? button.dataset.then : ""; }, true);
document.addEventListener("htmx:oobBeforeSwap", (event) => {
  if (event.detail.target.id !== "pane") return;
  const text = by("text"), fields = by("fields"), at = document.activeElement;
  caret = {
    id: at && by("pane").contains(at) ? at.id : "",
    range: at && "selectionStart" in at ? [at.selectionStart, at.selectionEnd] : null,
    text: text ? [text.selectionStart, text.selectionEnd, text.scrollTop, text.scrollLeft] : null,
    top: fields ? fields.scrollTop : 0,
    open: fields ? [...fields.querySelectorAll("details")].map((one) => one.open) : [],
  };
});
document.addEventListener("htmx:oobAfterSwap", (event) => {
  if (event.detail.target.id !== "pane" || !caret) return;
  const text = by("text"), fields = by("fields");
  if (fields) [...fields.querySelectorAll("details")].forEach((one, n) => { one.open = Boolean(caret.open[n]); });
  const at = caret.id && by(caret.id), next = then;
  then = "";
  if (at) { at.focus({ preventScroll: true }); if (caret.range && "setSelectionRange" in at) at.setSelectionRange(...caret.range); }
  // Later, since htmx goes back to where one was.
  if (next) setTimeout(() => { const [id, ...within] = next.split(" "), one = document.querySelector(`[id="${id}"] ${within.join(" ")}`); if (one) one.focus(); }, 20);
  if (text && caret.text) { text.setSelectionRange(caret.text[0], caret.text[1]); text.scrollTop = caret.text[2]; text.scrollLeft = caret.text[3]; }
  if (fields) fields.scrollTop = caret.top;
  caret = null;
});
const level = () => { const gutter = by("gutter"), text = by("text"); if (gutter && text) gutter.scrollTop = text.scrollTop; };
document.addEventListener("scroll", (event) => { if (event.target.id === "text") level(); }, true);
const drawGutter = () => {
  const gutter = by("gutter"), many = by("text").value.split("\n").length;
  while (gutter.children.length > many) gutter.lastChild.remove();
  while (gutter.children.length < many) {
    const line = document.createElement("li");
    line.textContent = gutter.children.length + 1;
    gutter.append(line);
  }
  level();
};
const goTo = (number) => {
  const field = !by("text") && document.querySelector(`[data-at="${number}"]`);
  if (field) { field.closest("details")?.setAttribute("open", ""); field.focus(); field.scrollIntoView({ block: "center" }); return; }
  if (by("text")) inText(number);
  else goToText(number);
};
const goToText = (number) => htmx.ajax("GET", "/pane/text", { target: "#pane", swap: "outerHTML" }).then(() => inText(number));
const inText = (number) => {
  const text = by("text"), lines = text.value.split("\n");
  if (!number || number > lines.length) return;
  const start = lines.slice(0, number - 1).reduce((sum, line) => sum + line.length + 1, 0);
  text.focus();
  text.setSelectionRange(start, start + lines[number - 1].length);
  text.scrollTop = (number - 4) * text.scrollHeight / lines.length;
};
document.addEventListener("click", (event) => {
  const line = event.target.closest("[data-line]");
  if (line) goTo(Number(line.dataset.line));
  const written = event.target.closest("[data-text-line]");
  if (written) goToText(Number(written.dataset.textLine));
});

// -- fields ----------------------------------------------------------------------------------------

// While one answer is awaited the keys are counted, field by field, so that of a key held down none is lost and none lags behind.
const owed = new Map();
let nudging = null;
const nudge = () => {
  const [field, steps] = owed.entries().next().value || [];
  if (nudging || !field) return;
  owed.delete(field);
  const values = { way: field.dataset.way, value: field.value, by: steps > 0 ? "more" : "less", times: Math.min(Math.abs(steps), 999) };
  nudging = htmx.ajax("POST", "/nudge", { source: "#fields", target: "#sheet", swap: "outerHTML", values })
    .finally(() => { nudging = null; nudge(); });
};
document.addEventListener("keydown", (event) => {
  const field = event.target;
  if (!field.dataset || !field.dataset.length || !["ArrowUp", "ArrowDown"].includes(event.key)) return;
  event.preventDefault();
  owed.set(field, (owed.get(field) || 0) + (event.key === "ArrowUp" ? 1 : -1));
  // What was typed a moment ago is on its way and goes before.
  whenSent(nudge);
});
document.addEventListener("nudged", (event) => {
  for (const field of document.querySelectorAll("[data-way]")) {
    if (field.dataset.way === event.detail.way) field.value = event.detail.value;
  }
});

// Beside a field that is right now nothing is said any more.
document.addEventListener("htmx:oobAfterSwap", (event) => {
  if (event.detail.target.id !== "faulty") return;
  const ids = by("faulty").dataset.ids.split(" ");
  for (const said of document.querySelectorAll("#fields .said:not(:empty)")) if (!ids.includes(said.id)) said.textContent = "";
});

// -- the paper -------------------------------------------------------------------------------------

const place = { x: 0, y: 0, scale: 1 };
const put = () => {
  const drawing = by("drawing");
  if (drawing) by("paper").classList.toggle("near", place.scale > 1);
  if (drawing) drawing.style.transform = place.scale === 1 && !place.x && !place.y ? "" : `translate(${place.x}px, ${place.y}px) scale(${place.scale})`;
};
const zoom = (times, x, y) => {
  const scale = Math.min(24, Math.max(1, place.scale * times));
  place.x = x - (x - place.x) * scale / place.scale;
  place.y = y - (y - place.y) * scale / place.scale;
  place.scale = scale;
  if (scale === 1) place.x = place.y = 0;
  put();
};
const inPaper = (event) => { const box = by("paper").getBoundingClientRect(); return [event.clientX - box.left, event.clientY - box.top]; };
document.addEventListener("wheel", (event) => {
  if (!event.target.closest || !event.target.closest("#paper")) return;
  event.preventDefault();
  zoom(Math.exp(-event.deltaY * 0.0015), ...inPaper(event));
}, { passive: false });
const fingers = new Map();
document.addEventListener("pointerdown", (event) => {
  if (event.target.closest("#paper")) fingers.set(event.pointerId, inPaper(event));
});
document.addEventListener("pointermove", (event) => {
  const before = fingers.get(event.pointerId);
  if (!before) return;
  const now = inPaper(event);
  if (fingers.size === 2) {
    const other = [...fingers].find(([id]) => id !== event.pointerId)[1];
    const apart = (one) => Math.hypot(one[0] - other[0], one[1] - other[1]) || 1;
    zoom(apart(now) / apart(before), (now[0] + other[0]) / 2, (now[1] + other[1]) / 2);
  } else if (place.scale > 1) {
    place.x += now[0] - before[0];
    place.y += now[1] - before[1];
    put();
  }
  fingers.set(event.pointerId, now);
});
for (const over of ["pointerup", "pointercancel"]) document.addEventListener(over, (event) => fingers.delete(event.pointerId));
document.addEventListener("keydown", (event) => {
  if (event.target.id !== "paper" || event.ctrlKey || event.metaKey) return;
  const box = event.target.getBoundingClientRect(), steps = { ArrowLeft: [60, 0], ArrowRight: [-60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] };
  if (event.key === "+" || event.key === "=") zoom(1.25, box.width / 2, box.height / 2);
  else if (event.key === "-") zoom(0.8, box.width / 2, box.height / 2);
  else if (event.key === "0") { Object.assign(place, { x: 0, y: 0, scale: 1 }); put(); }
  else if (steps[event.key] && place.scale > 1) { place.x += steps[event.key][0]; place.y += steps[event.key][1]; put(); }
  else return;
  event.preventDefault();
});
document.addEventListener("htmx:afterSwap", () => { put(); level(); });

// -- when it can't be reached ------------------------------------------------------------------------

const tell = (said) => {
  const line = document.createElement("p");
  line.className = "refused";
  line.textContent = said;
  by("notice").replaceChildren(line);
};
document.addEventListener("htmx:responseError", (event) => tell(event.detail.xhr.responseText.slice(0, 300)));
document.addEventListener("htmx:sendError", () => tell("joinlay look has stopped. What you wrote is still here: start it again, load this page in another window, and carry it over."));

// -- parts and numbers that are pressed -----------------------------------------------------------------

let lit = [];
const light = () => {
  for (const one of document.querySelectorAll("[data-part]")) {
    one.classList.toggle("lit", lit.length > 0 && JSON.parse(one.dataset.part).some((name) => lit.includes(name)));
  }
};
// The cards that were looked at, the last one last; and where one was before the first.
let way = [], before = null;
const ask = (address) => htmx.ajax("GET", address, { target: "#card", swap: "innerHTML" });
const showCard = (address, name) => ask(`${address}?name=${encodeURIComponent(name)}`);
document.addEventListener("htmx:beforeRequest", (event) => {
  if (event.detail.target.id !== "card" || !by("pressed").hidden) return;
  before = document.activeElement;
  way = [];
  by("pressed").hidden = false;
});
document.addEventListener("htmx:afterSwap", (event) => {
  if (event.detail.target.id !== "card") return;
  const path = event.detail.pathInfo.requestPath, is_again = way[way.length - 1] === path;
  if (!is_again) way.push(path);
  by("back").hidden = way.length < 2;
  const asked = by("card").querySelector("[aria-current]");
  if (!is_again) { by("pressed").scrollTop = 0; by("pressed").focus({ preventScroll: true }); if (asked) asked.scrollIntoView({ block: "center" }); }
});
// What a card tells moves with the job; of what is gone there is none.
let again = 0, shown = "";
document.addEventListener("htmx:afterSwap", () => {
  const now = by("drawing") ? by("drawing").dataset.revision : "";
  if (now === shown) return;
  shown = now;
  clearTimeout(again);
  if (!by("pressed").hidden && way.length) again = setTimeout(() => { if (!by("pressed").hidden) ask(way[way.length - 1]); }, 500);
});
document.addEventListener("htmx:beforeSwap", (event) => {
  if (event.detail.target.id === "card" && event.detail.xhr.status === 404) putAway();
});
const pressed = (target) => {
  const one = target.closest && target.closest("[data-why], [data-part]");
  if (!one) return false;
  if (one.dataset.why) showCard("/why", one.dataset.why);
  else {
    lit = JSON.parse(one.dataset.part);
    light();
    showCard("/part", lit[0]);
  }
  return true;
};
const putAway = () => {
  const is_here = by("pressed").contains(document.activeElement);
  by("pressed").hidden = true;
  lit = [];
  light();
  if (is_here) (before && before.isConnected && before !== document.body ? before : by("paper")).focus({ preventScroll: true });
};
let down = null;
document.addEventListener("pointerdown", (event) => { down = [event.clientX, event.clientY]; }, true);
document.addEventListener("click", (event) => {
  if (event.target.id === "away") return putAway();
  if (event.target.id === "back") { way.pop(); const last = way.pop(); if (last) ask(last); return; }
  // A drag that ends on a part moves the paper; it doesn't press the part.
  if (event.detail && down && Math.hypot(event.clientX - down[0], event.clientY - down[1]) > 5) return;
  pressed(event.target);
});
document.addEventListener("keydown", (event) => {
  if (event.key === "Escape" && !by("pressed").hidden) putAway();
  if ((event.key === "Enter" || event.key === " ") && event.target.closest("svg [data-why]") && pressed(event.target)) event.preventDefault();
});
document.addEventListener("htmx:afterSwap", light);
