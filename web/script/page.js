// The page works without this script. With it: single keys, live lists, outlines that
// can be clicked, and what confirming would add while one types.
"use strict";
const body = document.body, base = body.dataset.base, token = body.dataset.token;
const $ = (s, of = document) => of.querySelector(s), $$ = (s, of = document) => [...of.querySelectorAll(s)];

// --- keys ---
const keysOn = () => localStorage.getItem("keys") !== "off";
function keys() {
  const dialog = $("#keys"), open = $("#keys-open"), box = $("#keys-on");
  open.hidden = false;
  box.checked = keysOn();
  open.addEventListener("click", () => dialog.showModal());
  box.addEventListener("change", () => localStorage.setItem("keys", box.checked ? "on" : "off"));
  document.addEventListener("keydown", e => {
    if (e.ctrlKey || e.metaKey || e.altKey || dialog.open) return;
    if (e.target.matches("input:not([type=checkbox]):not([type=radio]), select, textarea")) {
      if (e.key === "Escape") e.target.blur();
      return;
    }
    if (e.key === "?") { dialog.showModal(); e.preventDefault(); return; }
    if (!keysOn()) return;
    if (press(e.key)) e.preventDefault();
  });
}
function press(key) {
  if (key === "/") { const s = $("#search"); if (s) s.focus(); return !!s; }
  if (key === "j" || key === "k") return move(key === "j" ? 1 : -1);
  if (/^[1-9]$/.test(key)) { const a = $$(".question input[type=radio]")[key - 1]; if (a) { a.click(); a.focus(); } return !!a; }
  if (key === "+" || key === "=") return zoom(1.25);
  if (key === "-") return zoom(0.8);
  if (key === "r") return rotate();
  const hit = $(`[data-key="${CSS.escape(key)}"]`);
  if (!hit) return false;
  hit.focus();
  if (!hit.matches("select, input")) hit.click();
  const folded = hit.matches("summary") && hit.parentElement.open && $("input:not([type=hidden]), select", hit.parentElement);
  if (folded) folded.focus();
  return true;
}
function move(by) {
  const lines = $$(".line a:first-of-type, .pick input");
  if (!lines.length) return false;
  const at = lines.indexOf(document.activeElement);
  lines[Math.min(Math.max(at + by, 0), lines.length - 1)].focus();
  return true;
}

// --- the small picture of the focused line ---
function glance() {
  document.addEventListener("focusin", e => {
    $$(".glance").forEach(g => g.remove());
    const line = e.target.closest("li.line");
    if (!line || !line.dataset.picture) return;
    const img = new Image();
    img.className = "glance"; img.alt = ""; img.src = line.dataset.picture;
    line.append(img);
  });
}

// --- live: something happened in the vault ---
function live() {
  let last = null;
  const stream = new EventSource(base + "/events");
  stream.addEventListener("log", async e => {
    if (last === null) { last = e.data; return; }
    if (e.data === last) return;
    last = e.data;
    if (body.dataset.screen !== "work") return;
    const fresh = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
    const there = $("#list"), here = $("#list", fresh);
    if (!there || !here) { if (!$("input:focus")) location.reload(); return; }
    const focused = document.activeElement && document.activeElement.getAttribute("href");
    there.replaceWith(here);
    const old = $(".standings"), now = $(".standings", fresh);
    if (old && now) old.replaceWith(now);
    if (focused) { const again = $(`#list a[href="${CSS.escape(focused)}"]`); if (again) again.focus(); }
  });
  addEventListener("pagehide", () => stream.close());
}

// --- dropping files onto the page ---
function dropping() {
  const form = $(".drop");
  if (!form) return;
  const input = $("input[type=file]", form);
  document.addEventListener("dragover", e => e.preventDefault());
  document.addEventListener("drop", e => {
    e.preventDefault();
    if (!e.dataTransfer.files.length) return;
    input.files = e.dataTransfer.files;
    form.submit();
  });
}

// --- the desk ---
const svgNS = "http://www.w3.org/2000/svg";
let scale = 1, turned = 0, field = null;
function svg(name, attributes) {
  const n = document.createElementNS(svgNS, name);
  for (const [k, v] of Object.entries(attributes)) n.setAttribute(k, v);
  return n;
}
async function outline(sheet) {
  const img = $("img.picture", sheet), frame = document.createElement("div");
  frame.className = "frame";
  img.replaceWith(frame);
  frame.append(img);
  let page;
  try { page = await (await fetch(sheet.dataset.words)).json(); } catch { return; }
  if (!page.width) return;
  const over = svg("svg", { viewBox: `0 0 ${page.width} ${page.height}`, "aria-hidden": "true" });
  drawWords(over, page.words);
  const together = new Map();
  for (const m of page.marks) {
    const [x0, y0, x1, y1] = m.box, where = m.box.join();
    together.set(where, (together.get(where) ?? "") + m.mark);
    const rect = svg("rect", { class: "value", x: x0 - 2, y: y0 - 2, width: x1 - x0 + 4, height: y1 - y0 + 4, "data-field": m.field, "pointer-events": "none" });
    over.append(rect);
  }
  for (const [where, letters] of together) {
    const [x0, y0] = where.split(",").map(Number);
    const text = svg("text", { x: Math.max(x0 - 2, 1), y: Math.max(y0 - 4, 8) });
    text.textContent = letters;
    over.append(text);
  }
  frame.append(over);
  drag(over, page);
  if (!page.words.length) recognised(sheet, over, page);
}
function drawWords(over, words) {
  for (const w of words) {
    const [x0, y0, x1, y1] = w.box;
    const rect = svg("rect", { class: "word", x: x0, y: y0, width: Math.max(x1 - x0, 1), height: Math.max(y1 - y0, 1) });
    rect.addEventListener("click", () => fill(w.text));
    over.prepend(rect);
  }
}
async function recognised(sheet, over, page) {
  try { page.words = (await (await fetch(sheet.dataset.words + "?all=1")).json()).words; } catch { return; }
  drawWords(over, page.words);
}
function drag(over, page) {
  let from = null, box = null;
  const at = e => { const p = over.createSVGPoint(); p.x = e.clientX; p.y = e.clientY; return p.matrixTransform(over.getScreenCTM().inverse()); };
  over.addEventListener("pointerdown", e => { from = at(e); });
  over.addEventListener("pointermove", e => {
    if (!from) return;
    const to = at(e);
    if (!box && Math.hypot(to.x - from.x, to.y - from.y) < 4) return;
    if (!box) { box = svg("rect", { class: "drag" }); over.append(box); }
    box.setAttribute("x", Math.min(from.x, to.x)); box.setAttribute("y", Math.min(from.y, to.y));
    box.setAttribute("width", Math.abs(to.x - from.x)); box.setAttribute("height", Math.abs(to.y - from.y));
  });
  addEventListener("pointerup", () => {
    if (box) {
      const x0 = +box.getAttribute("x"), y0 = +box.getAttribute("y"), x1 = x0 + +box.getAttribute("width"), y1 = y0 + +box.getAttribute("height");
      const inside = page.words.filter(w => { const x = (w.box[0] + w.box[2]) / 2, y = (w.box[1] + w.box[3]) / 2; return x >= x0 && x <= x1 && y >= y0 && y <= y1; });
      if (inside.length) fill(inside.map(w => w.text).join(" "), true);
      box.remove();
    }
    from = box = null;
  });
}
let filled = 0;
function fill(text, whole) {
  if (!field) return;
  const again = Date.now() - filled < 4000 && !whole && field.value;
  field.value = again ? field.value + " " + text : text;
  filled = Date.now();
  field.focus();
  field.dispatchEvent(new Event("input", { bubbles: true }));
}
function zoom(by) {
  const frames = $$(".sheet .frame");
  if (!frames.length) return false;
  scale = Math.min(Math.max(scale * by, 0.5), 4);
  draw(frames);
  return true;
}
function rotate() {
  const frames = $$(".sheet .frame");
  if (!frames.length) return false;
  turned = (turned + 90) % 360;
  draw(frames);
  return true;
}
function draw(frames) {
  for (const f of frames) {
    f.style.setProperty("width", scale * 100 + "%");
    const img = $("img.picture", f), w = f.clientWidth, h = img.clientHeight || w;
    const moved = { 0: "", 90: `translate(${h}px,0) `, 180: `translate(${w}px,${h}px) `, 270: `translate(0,${w}px) ` }[turned];
    f.style.setProperty("transform", turned ? moved + `rotate(${turned}deg)` : "none");
    f.style.setProperty("margin-bottom", turned % 180 ? Math.max(w - h, 0) + "px" : "0");
    if (scale > 1.1) img.src = img.dataset.src + "?dpi=" + Math.min(300, Math.round(110 * scale));
  }
}
function desk() {
  const form = $("#decide");
  if (!$(".desk")) return;
  $(".pagetools").hidden = !$(".sheet");
  const near = new IntersectionObserver(seen => {
    for (const s of seen) if (s.isIntersecting) { near.unobserve(s.target); outline(s.target); }
  }, { rootMargin: "100% 0px" });
  $$(".sheet").forEach(sheet => near.observe(sheet));
  $("#zoomin").addEventListener("click", () => zoom(1.25));
  $("#zoomout").addEventListener("click", () => zoom(0.8));
  $("#rotate").addEventListener("click", rotate);
  if (!form) return;
  document.addEventListener("focusin", e => {
    const of = e.target.closest("[data-field]");
    if (e.target.dataset.fills) field = e.target;
    if (!of || of.closest("svg")) return;
    $$(".on").forEach(n => n.classList.remove("on"));
    of.classList.add("on");
    const mark = $(`svg .value[data-field="${CSS.escape(of.dataset.field)}"]`);
    if (mark) {
      mark.classList.add("on");
      const r = mark.getBoundingClientRect();
      if (r.top < 0 || r.bottom > innerHeight) mark.scrollIntoView({ block: "center" });
      const f = e.target.getBoundingClientRect(); // what has the focus stays in sight, also where the pages stand above the form
      if (f.top < 0 || f.bottom > innerHeight - 60) e.target.scrollIntoView({ block: "nearest" });
    }
  });
  // why a value stands there opens with its field, once no button is down that a line
  // moving away could miss
  let down = false, opened = null;
  addEventListener("pointerdown", () => { down = true; }, true);
  addEventListener("pointerup", () => { down = false; }, true);
  $$(".because summary").forEach(s => { s.tabIndex = -1; });
  const because = e => {
    const here = e.target.matches("input, select") ? $(".because", e.target.closest(".field") ?? document.createElement("p")) : null;
    const turn = () => {
      if (opened && opened !== here) { opened.open = false; opened = null; }
      if (here && !here.open) { here.open = true; opened = here; }
    };
    if (down) addEventListener("pointerup", () => setTimeout(turn), { once: true }); else turn();
  };
  form.addEventListener("focusin", because);
  // a word typed as one's own answer takes back the choice of a candidate
  $$(".answer.own input").forEach(own => own.addEventListener("input", () => $$("input[type=radio]", own.closest(".question")).forEach(r => { r.checked = false; })));
  const cert = $("#f-cert"); // other categories and questions hold for another certification
  if (cert) cert.addEventListener("change", () => { form.action = $("#effect").dataset.preview; form.submit(); });
  let timer = 0, turn = 0;
  const look = async () => {
    const mine = ++turn, data = new URLSearchParams(new FormData(form));
    data.set("part", "effect");
    const lost = () => { const p = document.createElement("p"); p.className = "open"; p.textContent = $("#effect").dataset.lost; $("#effect").replaceChildren(p); };
    let answer, html;
    try {
      answer = await fetch($("#effect").dataset.preview, { method: "POST", body: data });
      html = await answer.text();
    } catch { if (mine === turn) lost(); return; }
    if (mine === turn && answer.ok) $("#effect").replaceChildren(...new DOMParser().parseFromString(html, "text/html").body.childNodes);
  };
  const soon = () => { clearTimeout(timer); timer = setTimeout(look, 250); };
  document.addEventListener("input", e => { if (e.target.form === form) soon(); });
  if (!$("#effect").children.length) look();
}

keys();
glance();
live();
dropping();
desk();
