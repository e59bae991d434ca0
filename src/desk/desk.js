// The page's script. It sends each change, asks for what came of it, and puts that in the place of what was shown; elements
// that stay the same stay in place, so that focus, open parts and what is being typed are not disturbed. Nothing is decided
// here: the page that comes of a change is the one that loading it again would show.
"use strict";
(() => {
  const PARTS = ["bar", "form", "standing", "packets", "numbers", "pages"];
  const PAUSE = 120;      // after the last key, in ms
  const PRESENT = 5000;   // between two words that the page is open, in ms
  const PROGRESS = 400;   // between two looks at packets being made, in ms

  let revision = Number(document.body.dataset.revision);
  let saved = true;
  let asking = null;      // the question for a view that is under way
  let queue = Promise.resolve();
  const byId = (id) => document.getElementById(id);

  // ---- talking to the desk

  function gone() {
    byId("gone").hidden = false;
  }

  async function post(path, body) {
    const answer = await fetch(path, {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body || {}),
    });
    if (!answer.ok) throw new Error(await answer.text());
    return answer.json();
  }

  // Changes go one after the other, so that they arrive in the order in which they were made.
  function change(path, body) {
    queue = queue.then(() => post(path, body)).then((told) => {
      if (told.revision !== revision) revision = told.revision;
      look();
      return told.told;
    }).catch((error) => {
      if (error instanceof TypeError) gone(); else say(error.message);
    });
    return queue;
  }

  // Asks for what came of the last change; an older question is dropped.
  async function look() {
    if (!byId("form")) return;
    if (asking) asking.abort();
    const mine = asking = new AbortController();
    const slow = setTimeout(() => busy(true), 300);
    try {
      const answer = await fetch(`/view?revision=${revision}`, { signal: mine.signal });
      const view = await answer.json();
      if (mine !== asking) return;
      asking = null;
      if (view.lesson !== Boolean(byId("form"))) return location.assign("/");
      revision = view.revision;
      show(view);
      if (!view.judged) look();
      else if (view.busy) setTimeout(() => { if (!asking) look(); }, PROGRESS);
    } catch (error) {
      if (error.name !== "AbortError") gone();
    } finally {
      clearTimeout(slow);
      if (mine === asking || !asking) busy(false);
    }
  }

  // Says that what is shown is of the lesson before.
  function busy(is) {
    if (is) byId("pages").setAttribute("aria-busy", "true"); else byId("pages").removeAttribute("aria-busy");
    byId("working").hidden = !is;
  }

  function show(view) {
    saved = view.saved;
    for (const id of PARTS) {
      const there = byId(id);
      if (!there) continue;
      const wanted = document.createElement(there.tagName);
      wanted.innerHTML = view[id];
      children(there, wanted);
    }
  }

  // ---- putting new elements in the place of old ones

  const alike = (a, b) => a.nodeType === b.nodeType && a.nodeName === b.nodeName && (a.id || "") === (b.id || "");

  function children(there, wanted) {
    let old = there.firstChild;
    for (const node of [...wanted.childNodes]) {
      if (node.id && !(old && alike(old, node))) {
        const elsewhere = [...there.childNodes].find((child) => child.id === node.id);
        if (elsewhere) { there.insertBefore(elsewhere, old); old = elsewhere; }
      }
      if (old && alike(old, node)) {
        const next = old.nextSibling;
        become(old, node);
        old = next;
      } else {
        there.insertBefore(node, old);
      }
    }
    while (old) {
      const next = old.nextSibling;
      old.remove();
      old = next;
    }
  }

  function become(there, wanted) {
    if (there.nodeType !== Node.ELEMENT_NODE) {
      if (there.data !== wanted.data) there.data = wanted.data;
      return;
    }
    // What the reader opened or folded stays so, unless something in it has gone wrong just now.
    if ("wrong" in wanted.dataset && !("wrong" in there.dataset) && there.nodeName === "DETAILS") there.open = true;
    for (const { name } of [...there.attributes]) {
      if (!wanted.hasAttribute(name) && name !== "open") there.removeAttribute(name);
    }
    for (const { name, value } of wanted.attributes) {
      if (there.getAttribute(name) !== value && name !== "open") there.setAttribute(name, value);
    }
    // What is being typed stays as it is typed, with its spaces and commas, until something else changes the lesson.
    const held = there === document.activeElement && there.closest("[data-key], #part-text") === own;
    if (there.nodeName === "TEXTAREA") {
      if (!held && there.value !== wanted.textContent) there.value = wanted.textContent;
      if (!held) there.defaultValue = wanted.textContent;
      return;
    }
    children(there, wanted);
    if (there.nodeName === "INPUT" && there.type === "checkbox") there.checked = wanted.hasAttribute("checked");
    else if (there.nodeName === "INPUT" && !held) there.value = wanted.getAttribute("value") || "";
    else if (there.nodeName === "SELECT") {
      const chosen = [...there.options].findIndex((option) => option.hasAttribute("selected"));
      there.selectedIndex = Math.max(chosen, 0);
    }
  }

  // ---- the form

  function parts(field) {
    const found = {};
    const boxes = [...field.querySelectorAll("input[type=checkbox]")];
    if (boxes.length) {
      let words = boxes.filter((box) => box.checked).map((box) => box.value);
      const first = field.querySelector("[data-first]");
      if (first && words.includes(first.value)) words = [first.value, ...words.filter((word) => word !== first.value)];
      words.forEach((word, k) => { found[String(k).padStart(2, "0")] = word; });
    }
    for (const input of field.querySelectorAll("[data-part]")) {
      if (input.value !== "") found[input.dataset.part] = input.value;
    }
    return found;
  }

  let waiting = null;
  let own = null;         // the field that was typed into last
  function send(field, typing) {
    own = typing ? field : null;
    if (waiting) { clearTimeout(waiting.timer); if (waiting.field !== field) waiting.now(); waiting = null; }
    const now = () => change("/edit", { key: field.dataset.key, parts: parts(field), typing });
    if (typing) waiting = { field, now, timer: setTimeout(() => { waiting = null; now(); }, PAUSE) };
    else now();
  }

  document.addEventListener("input", (event) => {
    if (event.target.id === "text") own = byId("part-text");
    const field = event.target.closest("[data-key]");
    if (field && event.target.matches("input:not([type=checkbox])")) send(field, true);
  });
  document.addEventListener("change", (event) => {
    const field = event.target.closest("[data-key]");
    if (field && event.target.matches("select, input[type=checkbox]")) send(field, false);
    else if (field && waiting) { clearTimeout(waiting.timer); const { now } = waiting; waiting = null; now(); }
  });

  // ---- buttons

  function say(words) {
    let told = document.querySelector(".told");
    if (!told) {
      told = document.createElement("p");
      told.className = "told";
      told.setAttribute("role", "alert");
      byId("asks").after(told);
    }
    told.textContent = words;
  }

  const quiet = () => { for (const told of document.querySelectorAll(".told, #name-again")) told.remove(); };

  async function save(name, over) {
    const told = await change("/save", { name, over });
    if (told && told.there) {
      const again = byId("name-again") || byId("asks").appendChild(document.createElement("div"));
      again.id = "name-again";
      again.className = "ask";
      again.setAttribute("role", "alert");
      again.replaceChildren(`There is another text in ${name} already. `);
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = "Replace it (Undo brings it back)";
      button.onclick = () => save(name, true);
      again.append(button);
      button.focus();
    } else if (told) say(told);
  }

  async function onto(told) {
    const words = await told;
    if (words) say(words); else location.assign("/");
  }

  document.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    const data = button.dataset;
    quiet();
    own = null;
    if (data.go) change(data.go).then((words) => words && say(words));
    else if ("over" in data || (data.save && "there" in data)) save(data.save, "over" in data);
    else if (data.save || data.saveas) {
      byId("name-asked").hidden = false;
      byId("name-given").value = data.save || data.saveas;
      byId("name-given").select();
    } else if ("named" in data) {
      let name = byId("name-given").value.trim();
      if (!name.toLowerCase().endsWith(".toml")) name += ".toml";
      byId("name-asked").hidden = true;
      save(name, false);
    } else if ("unasked" in data) byId("name-asked").hidden = true;
    else if (data.act) {
      const number = { act: data.act, role: data.role || "", version: data.version || "", number: Number(data.number || 0) };
      change("/number", number).then((words) => words && say(words));
    } else if (data.clear) change("/edit", { key: data.clear, parts: {}, typing: false });
    else if (data.list) change("/list", { name: data.list, act: "without" in data ? "remove" : "add", number: Number(data.without || 0) });
    else if ("text" in data) change("/text", { text: byId("text").value });
    else if (data.begin) onto(change("/begin", { name: data.begin }));
    else if (data.like) onto(change("/begin", { name: data.like, act: "like" }));
    else if (data.open) onto(change("/open", { name: data.open }));
    else if (data.page) large(button);
    else if (data.turn) turn(Number(data.turn));
  });

  document.addEventListener("keydown", (event) => {
    if (event.target.id === "name-given" && event.key === "Enter") document.querySelector("[data-named]").click();
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const typing = event.target.matches("input, textarea");
    const key = event.key.toLowerCase();
    const press = (query) => { const button = document.querySelector(query); if (button && !button.disabled) { event.preventDefault(); button.click(); } };
    if (key === "s") press("[data-save]:not([data-over])");
    else if (key === "z" && !typing) press(event.shiftKey ? "[data-go='/forth']" : "[data-go='/back']");
  });

  // What a message names is opened and typed into.
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[href^='#field-']");
    const field = link && byId(link.getAttribute("href").slice(1));
    if (!field) return;
    event.preventDefault();
    field.closest("details").open = true;
    field.scrollIntoView({ block: "center" });
    const input = field.querySelector("[aria-invalid], input, select");
    if (input) input.focus({ preventScroll: true });
  });

  // ---- a page, larger

  let shown = 0;
  const sheets = () => [...document.querySelectorAll("details[open] [data-page]")];
  function large(button) {
    const picture = button.querySelector("img");
    shown = sheets().indexOf(button);
    byId("large-sheet").src = picture.getAttribute("src");
    byId("large-sheet").alt = picture.alt;
    byId("large-sheet").width = 3 * picture.getAttribute("width");
    byId("large-sheet").height = 3 * picture.getAttribute("height");
    byId("large-name").textContent = button.querySelector(".caption").textContent;
    if (!byId("large").open) byId("large").showModal();
  }
  function turn(by) {
    const all = sheets();
    if (all.length) large(all[(shown + by + all.length) % all.length]);
  }
  byId("large").addEventListener("keydown", (event) => {
    if (event.key === "ArrowLeft") turn(-1);
    if (event.key === "ArrowRight") turn(1);
  });
  byId("large").addEventListener("close", () => { const all = sheets(); if (all[shown]) all[shown].focus(); });

  // ---- being there, and going

  async function here() {
    try {
      const answer = await fetch("/here");
      const now = await answer.json();
      const asked = document.querySelector("#bar [data-go='/theirs']");
      if (byId("form") && (now.revision !== revision || now.theirs !== Boolean(asked) || now.saved !== saved)) look();
    } catch (error) {
      gone();
    }
  }
  setInterval(here, PRESENT);
  window.addEventListener("pagehide", () => {
    navigator.sendBeacon("/left", new Blob(["{}"], { type: "application/json" }));
  });
  window.addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });
  window.addEventListener("beforeunload", (event) => { if (!saved && !leaving) event.preventDefault(); });
  let leaving = false;
  document.addEventListener("click", (event) => { if (event.target.closest("a[href='/begin'], a[href='/']")) leaving = true; });
  // On a small screen the form begins folded, so that what comes of it is not far.
  if (window.matchMedia("(max-width: 56rem)").matches) {
    for (const part of document.querySelectorAll("details.part")) part.open = part.id === "part-top" || "wrong" in part.dataset;
  }
  look();
})();
