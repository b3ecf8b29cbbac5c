"use strict";
// A little script beside forms that work without it: steppers, parts that are fetched when
// they are opened, and the sliders of "what if".

const money = (c) => (c < 0 ? "-" : "") + Math.floor(Math.abs(c) / 100) + "." + String(Math.abs(c) % 100).padStart(2, "0");

// Steppers: a minus and a plus beside every number, so that nothing has to be typed.
for (const input of document.querySelectorAll(".step input[type=number]")) {
  for (const [sign, text] of [[-1, "−"], [1, "+"]]) {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = text;
    b.setAttribute("aria-label", (sign < 0 ? "less: " : "more: ") + document.querySelector(`label[for="${input.id}"]`).textContent);
    b.addEventListener("click", () => {
      if (input.value === "") input.value = input.min;
      else if (sign > 0) input.stepUp();
      else input.stepDown();
    });
    if (sign < 0) input.before(b);
    else input.after(b);
  }
}

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
for (const d of document.querySelectorAll("details[data-part]")) {
  d.addEventListener("toggle", () => { if (d.open) part(d.querySelector("div")); }, { once: true });
}
for (const p of document.querySelectorAll("div.part[data-part]")) part(p);

// What if.
const form = document.getElementById("what-if");
if (form) {
  const box = document.getElementById("answer");
  let curve = [];
  let asked = 0;
  let timer = 0;
  const start = new FormData(form);
  const sliders = [...form.querySelectorAll("input[type=range]")];
  const show = (p) => {
    box.querySelector(".line").textContent = p.line;
    const has = p.status === "optimal" || p.expected_cents > 0;
    box.querySelector(".expected").textContent = has ? money(p.expected_cents) : "";
    box.querySelector(".outlay").textContent = has ? money(p.outlay_cents) : "";
    box.querySelector(".grade").textContent = has ? p.grade.toFixed(1) : "";
    box.querySelector(".changes").replaceChildren(...p.changes.map((c) => {
      const li = document.createElement("li");
      li.textContent = c;
      return li;
    }));
  };
  const moved = () => sliders.filter((e) => e.value !== start.get(e.name)).map((e) => e.name);
  const ask = async () => {
    const mine = ++asked;
    box.setAttribute("aria-busy", "true");
    const q = new URLSearchParams();
    for (const e of sliders) {
      if (!e.dataset.off || e.value !== start.get(e.name)) q.set(e.name, e.value);
    }
    try {
      const r = await fetch("/what-if.json?" + q);
      if (!r.ok) throw new Error(await r.text());
      const p = await r.json();
      if (mine === asked) show(p);
    } catch (e) {
      if (mine === asked) box.querySelector(".line").textContent = "That did not work: " + e.message;
    }
    if (mine === asked) box.removeAttribute("aria-busy");
  };
  form.addEventListener("input", (e) => {
    const output = form.querySelector(`output[for="${e.target.id}"]`);
    if (output) output.value = e.target.value;
    clearTimeout(timer);
    const names = moved();
    const mean = Number(form.elements.mean.value);
    const p = curve.find((q) => q.grade >= mean - 1e-9);
    if (names.length <= 1 && (names.length === 0 || names[0] === "mean") && curve.length && p) {
      asked++;
      box.removeAttribute("aria-busy");
      show(p);
      return;
    }
    box.setAttribute("aria-busy", "true");
    timer = setTimeout(ask, 60);
  });
  fetch("/curve.json").then((r) => r.json()).then((c) => {
    curve = c.points;
    form.dataset.ready = "1";
    if (curve.length) form.dispatchEvent(new Event("input"));
  }).catch(() => {});
  form.addEventListener("submit", (e) => e.preventDefault());
}
