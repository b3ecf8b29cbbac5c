"use strict";
// A little script beside forms that work without it: steppers, parts that are fetched when
// they are opened, and the sliders of "what if".

const money = (c) => (c < 0 ? "-" : "") + Math.floor(Math.abs(c) / 100) + "." + String(Math.abs(c) % 100).padStart(2, "0");

// Steppers: a minus and a plus beside every number, so that nothing has to be typed.
function steppers(root) {
  for (const input of root.querySelectorAll(".step input[type=number]")) {
    for (const [sign, text] of [[-1, "−"], [1, "+"]]) {
      const b = document.createElement("button");
      b.type = "button";
      b.textContent = text;
      b.setAttribute("aria-label", (sign < 0 ? "less: " : "more: ") + root.querySelector(`label[for="${input.id}"]`).textContent);
      b.addEventListener("click", () => {
        if (input.value === "") input.value = input.min;
        else if (sign > 0) input.stepUp();
        else input.stepDown();
      });
      if (sign < 0) input.before(b);
      else input.after(b);
    }
  }
}

// Parts, which are fetched when they are opened, or once the page is there.
async function part(place) {
  place.setAttribute("aria-busy", "true");
  try {
    const r = await fetch(place.closest("[data-part]").dataset.part);
    const text = await r.text();
    if (!r.ok) throw new Error(text);
    const doc = new DOMParser().parseFromString(text, "text/html");
    place.replaceChildren(...doc.body.childNodes);
  } catch (e) {
    place.textContent = "That did not work: " + e.message;
  }
  place.removeAttribute("aria-busy");
}
function parts(root) {
  for (const d of root.querySelectorAll("details[data-part]")) {
    d.addEventListener("toggle", () => { if (d.open) part(d.querySelector("div")); }, { once: true });
  }
  for (const p of root.querySelectorAll("div.part[data-part]")) part(p);
}

// What the whole set comes to with the other pieces, and what locks and bans cost, is worked out
// after the page is there.
async function costs(root) {
  for (const box of root.querySelectorAll("[data-costs]")) {
    try {
      const all = (await (await fetch(box.dataset.costs)).json()).pieces;
      for (const p of all) {
        const card = [...box.querySelectorAll("[data-key]")].find((e) => e.dataset.key === p.key);
        if (!card) continue;
        const mark = card.querySelector(".mark");
        mark.textContent = p.mark;
        mark.className = "mark " + p.mark.replace("'", "").replaceAll(" ", "-");
        card.querySelector("[data-set]").textContent = p.set;
        if (!p.why) continue;
        const row = card.querySelector(".whynot");
        row.querySelector("dd").textContent = p.why;
        row.hidden = false;
      }
      box.dataset.reckoned = "1";
    } catch (e) { /* the page says what it knows */ }
    if (!box.dataset.locks) continue;
    try {
      const texts = (await (await fetch(box.dataset.locks)).json()).texts;
      for (const e of document.querySelectorAll("[data-lock]")) {
        if (texts[e.dataset.lock]) e.textContent = texts[e.dataset.lock];
      }
    } catch (e) { /* what is locked stands there */ }
  }
}

// Another state of a page takes its place: where it was scrolled to, what was open and what was
// typed stays.
const isTyped = (e) => e.name && !["hidden", "file", "submit", "button"].includes(e.type); // a button keeps its own word
function remember(sent) {
  const typed = new Map();
  for (const f of document.querySelectorAll("main form")) {
    if (f === sent) continue;
    const key = nameOf(f);
    for (const e of f.elements) {
      if (!isTyped(e)) continue;
      const way = e.type === "radio" || e.type === "checkbox";
      const now = way ? e.checked : e.value;
      const was = way ? e.defaultChecked : e.tagName === "SELECT" ? null : e.defaultValue;
      if (now !== was) typed.set(key + "\n" + e.name + "\n" + (way ? e.value : ""), now);
    }
  }
  return {
    typed, x: scrollX, y: scrollY, anchor: anchor(),
    open: new Set([...document.querySelectorAll("details[data-open][open]")].map((d) => d.dataset.open)),
    focus: document.activeElement && document.activeElement.name ? keyOf(document.activeElement) : "",
  };
}
// What is under the hand stays there when a page takes another's place: a section is where it was on the
// screen, the one with the focus, or else the nearest to its middle.
function anchor() {
  const middle = innerHeight / 2;
  const all = [...document.querySelectorAll("main [data-open] > summary")].filter((e) => e.checkVisibility());
  const held = document.activeElement && document.activeElement.closest("main [data-open]");
  const far = (e) => Math.abs(e.getBoundingClientRect().top - middle);
  const best = held ? held.querySelector("summary") : all.sort((a, b) => far(a) - far(b))[0];
  return best && { key: best.parentElement.dataset.open, top: best.getBoundingClientRect().top };
}
const nameOf = (f) => ["action", "target", "piece"].map((n) => {
  const e = f.querySelector(`input[type=hidden][name=${n}]`);
  return e ? e.value : "";
}).join("\n") + "\n" + f.getAttribute("action");
const keyOf = (e) => e.form ? nameOf(e.form) + "\n" + e.name + "\n" + (e.type === "radio" || e.type === "checkbox" ? e.value : "") : "";
function restore(was) {
  for (const d of document.querySelectorAll("details[data-open]")) if (was.open.has(d.dataset.open)) d.open = true;
  for (const f of document.querySelectorAll("main form")) {
    for (const e of f.elements) {
      if (!isTyped(e)) continue;
      const key = keyOf(e);
      if (was.typed.has(key)) {
        if (typeof was.typed.get(key) === "boolean") e.checked = was.typed.get(key);
        else e.value = was.typed.get(key);
      }
      if (was.focus && key === was.focus) e.focus({ preventScroll: true });
    }
  }
  scrollTo(was.x, was.y);
  const held = was.anchor && document.querySelector(`[data-open="${CSS.escape(was.anchor.key)}"] > summary`);
  if (held && held.checkVisibility()) scrollBy(0, held.getBoundingClientRect().top - was.anchor.top);
}
function swap(text, sent) {
  const doc = new DOMParser().parseFromString(text, "text/html");
  const was = remember(sent);
  document.title = doc.title;
  document.body.replaceWith(document.importNode(doc.body, true)); // pictures load only in a page that is shown
  setUp();
  restore(was);
}

// A form is sent once, however often its button is pressed. Refused, it keeps what was typed, and says
// why beside it; else the page that follows takes this one's place.
async function send(e) {
  const form = e.target;
  if (form.method !== "post" || form.classList.contains("plain")) return;
  e.preventDefault();
  if (form.dataset.sending) return;
  form.dataset.sending = "1";
  const pressed = e.submitter;
  if (pressed) pressed.setAttribute("aria-disabled", "true");
  const data = new FormData(form, pressed);
  const files = form.enctype === "multipart/form-data";
  try {
    const r = await fetch(form.getAttribute("action"), { method: "POST", body: files ? data : new URLSearchParams(data) });
    const text = await r.text();
    if (r.ok) {
      const to = new URL(r.url);
      const same = to.pathname === location.pathname && to.searchParams.get("slot") === new URLSearchParams(location.search).get("slot");
      if (same) history.replaceState(null, "", r.url);
      else history.pushState(null, "", r.url);
      swap(text, form);
      if (!same) scrollTo(0, 0);
      const did = document.querySelector(".did");
      if (did) did.focus({ preventScroll: true });
      document.body.dataset.turn = String(Number(sessionStorage.turn = Number(sessionStorage.turn || 0) + 1));
      return;
    }
    refused(form, text, r.headers.get("Content-Type") || "");
  } catch (err) {
    refused(form, "That did not get through: " + err.message + ". Press once more; what was recorded is not recorded twice.", "");
  }
  delete form.dataset.sending;
  if (pressed) pressed.removeAttribute("aria-disabled");
}
function refused(form, text, kind) {
  for (const old of form.querySelectorAll(".refused, .again")) old.remove();
  const box = document.createElement("div");
  box.className = "refused";
  box.setAttribute("role", "alert");
  box.tabIndex = -1;
  if (kind.startsWith("text/html")) {
    const doc = new DOMParser().parseFromString(text, "text/html");
    const said = doc.querySelectorAll(".refused p, main .warn");
    box.append(...(said.length ? said : doc.querySelectorAll("main > p")));
    const again = doc.querySelector("form.again");
    if (again) form.after(again);
    if (doc.querySelector("h1") && doc.querySelector("h1").textContent === "Changed meanwhile") {
      const a = document.createElement("a");
      a.href = location.href;
      a.textContent = "Look at it as it is now";
      box.append(a);
    }
  } else {
    box.textContent = text;
  }
  form.append(box);
  box.focus();
}
addEventListener("submit", send);
addEventListener("popstate", () => location.reload());

// A page that went out before the plan was known gets it when it is there.
async function pending() {
  const base = document.body.dataset.pending;
  if (!base) return;
  try {
    await fetch("/ready");
    const text = await (await fetch(location.href)).text();
    if (document.body.dataset.pending === base) swap(text);
  } catch (e) { /* loaded again by hand it shows */ }
}

function setUp() {
  steppers(document);
  parts(document);
  costs(document);
  whatIf();
  pending();
}

// What if. A move is answered by itself; while nobody moves, what each mean costs is asked for, one after
// the other, the nearest to the plan first. A move breaks that off, and it goes on afterwards.
function whatIf() {
  const form = document.getElementById("what-if");
  if (!form) return;
  const box = document.getElementById("answer");
  const begun = [...box.cloneNode(true).childNodes];
  const start = new FormData(form);
  const sliders = [...form.querySelectorAll("input[type=range]")];
  let timer = 0;
  let stop = new AbortController();
  const get = async (path, signal) => {
    const r = await fetch(path, { signal });
    if (!r.ok) throw new Error(await r.text());
    return r.json();
  };
  const show = (p) => {
    box.querySelector(".edge").textContent = "";
    box.querySelector(".line").textContent = p.line;
    const has = p.expected_cents > 0 || p.status === "optimal";
    box.querySelector(".expected").textContent = has ? money(p.expected_cents) : "";
    box.querySelector(".outlay").textContent = has ? money(p.outlay_cents) : "";
    box.querySelector(".grade").textContent = has ? p.grade.toFixed(1) : "";
    box.querySelector(".changes").replaceChildren(...p.changes.map((c) => {
      const li = document.createElement("li");
      li.textContent = c;
      return li;
    }));
  };
  const asked = () => {
    const q = new URLSearchParams();
    for (const e of sliders) {
      if (e.value !== start.get(e.name)) q.set(e.name, e.value); // the others stay as the job asks
    }
    if (q.size === 1 && q.has("mean")) q.set("lifted", "1");
    return q;
  };
  const ask = async () => {
    const signal = stop.signal;
    const q = asked();
    try {
      if (q.size === 0) {
        box.replaceChildren(...begun.map((e) => e.cloneNode(true)));
      } else {
        const p = await get("/what-if.json?" + q, signal);
        if (signal.aborted) return;
        show(p);
        if (p.status === "infeasible") {
          const edge = box.querySelector(".edge");
          edge.textContent = "Where the edge is, is being looked for.";
          const all = (await get("/edge.json?" + q, signal)).edges;
          if (signal.aborted) return;
          edge.textContent = all.length ? all.join("; or ") + "." : "";
        }
      }
    } catch (e) {
      if (signal.aborted) return;
      box.querySelector(".line").textContent = "That did not work: " + e.message;
    }
    box.removeAttribute("aria-busy");
    means(signal);
  };
  form.addEventListener("input", (e) => {
    const output = form.querySelector(`output[for="${e.target.id}"]`);
    if (output) output.value = e.target.value;
    clearTimeout(timer);
    stop.abort();
    stop = new AbortController();
    box.setAttribute("aria-busy", "true");
    timer = setTimeout(ask, 60);
  });
  form.addEventListener("submit", (e) => e.preventDefault());
  const section = document.getElementById("means");
  const rows = section ? [...section.querySelectorAll("[data-mean]")] : [];
  const means = async (signal) => {
    for (const row of rows.filter((e) => !e.dataset.known).sort((a, b) => a.dataset.far - b.dataset.far)) {
      if (row.dataset.known) continue;
      const say = (row, text, cents) => {
        row.querySelector(".line").textContent = text;
        row.querySelector(".num").textContent = cents ? money(cents) : "";
        row.dataset.known = "1";
      };
      try {
        const p = await get("/what-if.json?" + new URLSearchParams({ mean: row.dataset.mean, lifted: "1" }), signal);
        if (signal.aborted || !form.isConnected) return;
        if (p.status === "infeasible") { // nor does anything reach more
          for (const e of rows) if (Number(e.dataset.mean) >= Number(row.dataset.mean)) say(e, "nothing reaches that");
        } else say(row, p.line, p.expected_cents);
      } catch (e) {
        return; // it says that it is not known
      }
    }
    if (section) section.dataset.whole = "1";
  };
  form.dataset.ready = "1";
  if (section) {
    section.hidden = false;
    means(stop.signal);
  }
}

setUp();
