// Live figures, the proof as you type, and keys. Every page works without this file.
"use strict";

const csrf = () => document.querySelector("input[name=csrf]")?.value ?? "";

async function post(address, fields) {
  const body = new URLSearchParams({ ...fields, csrf: csrf() });
  const answer = await fetch(address, { method: "POST", body });
  const json = (answer.headers.get("content-type") ?? "").includes("json");
  return answer.ok && json ? answer.json() : null;
}

function later(work, wait) {
  let timer = 0;
  return () => { clearTimeout(timer); timer = setTimeout(work, wait); };
}

function element(name, text, className) {
  const made = document.createElement(name);
  made.textContent = text;
  if (className) made.className = className;
  return made;
}

// Figures: worked again while a number is typed; kept only when the button is pressed.
for (const results of document.querySelectorAll("[data-live]")) {
  const form = results.closest("form");
  let asked = 0;
  const work = later(async () => {
    const mine = ++asked;
    const given = Object.fromEntries(new FormData(form));
    const made = await post(results.dataset.live, given);
    if (!made || mine !== asked) return;
    const lines = made.figures.map((figure) => element("p", figure.words, "figure"));
    const refused = made.refused.map((words) => element("p", words, "note"));
    results.replaceChildren(...lines, ...refused);
  }, 200);
  form.addEventListener("input", work);
}

// The proof of a text while it is written.
for (const text of document.querySelectorAll("textarea[data-proof]")) {
  const margin = document.querySelector(`[data-margin="${text.id}"] .marks`);
  if (!margin) continue;
  const filled = document.querySelector(`[data-margin="${text.id}"] [data-filled]`);
  const part = text.form.querySelector("input[name=part]")?.value ?? "email";
  let asked = 0;
  text.addEventListener("input", later(async () => {
    const mine = ++asked;
    const made = await post(text.dataset.proof, { part, text: text.value });
    if (!made || mine !== asked) return;
    const lines = made.marks.map((mark) => {
      const line = element("li", "", "open");
      line.append(element("strong", mark.sort), ` ${mark.message}`);
      if (mark.start >= 0) {
        const show = element("button", "Show", "quiet show");
        show.type = "button";
        show.addEventListener("click", () => { text.focus(); text.setSelectionRange(mark.start, mark.end); });
        line.append(show);
      }
      return line;
    });
    margin.replaceChildren(...(lines.length ? lines : [element("li", "Nothing to mark.", "none")]));
    if (filled) filled.textContent = made.filled;
    const seconds = text.closest("details")?.querySelector("[data-seconds]");
    if (seconds && made.seconds !== null) seconds.textContent = made.seconds;
  }, 350));
}

// Unkept words are not lost by a slip.
let unkept = false;
for (const text of document.querySelectorAll("form textarea")) {
  text.addEventListener("input", () => { unkept = true; });
  text.form.addEventListener("submit", () => { unkept = false; });
  text.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) text.form.requestSubmit(text.form.querySelector("button.keeps"));
  });
}
addEventListener("beforeunload", (event) => { if (unkept) event.preventDefault(); });

// Keys: one letter for each thing marked with data-key; j and k walk through lists. They can be turned off.
const on = document.querySelector("#keys-on");
if (on) {
  on.checked = localStorage.getItem("keys") !== "off";
  on.addEventListener("change", () => localStorage.setItem("keys", on.checked ? "on" : "off"));
  const list = document.querySelector("#key-list");
  for (const thing of document.querySelectorAll("[data-key]")) {
    thing.setAttribute("aria-keyshortcuts", thing.dataset.key);
    const words = thing.tagName === "TEXTAREA" ? "write" : thing.tagName === "INPUT" ? "first field" : thing.textContent.trim();
    const line = element("li", "");
    line.append(element("kbd", thing.dataset.key), ` ${words}`);
    list.append(line);
  }
  addEventListener("keydown", (event) => {
    if (!on.checked || event.ctrlKey || event.metaKey || event.altKey) return;
    const typing = event.target.closest("input:not([type=checkbox]), textarea, select");
    if (event.key === "Escape" && typing) { typing.blur(); return; }
    if (typing) return;
    if (event.key === "j" || event.key === "k") {
      const items = [...document.querySelectorAll("[data-item]")];
      const at = items.indexOf(document.activeElement) + (event.key === "j" ? 1 : -1);
      items[Math.max(0, Math.min(items.length - 1, at))]?.focus();
      event.preventDefault();
      return;
    }
    const thing = document.querySelector(`[data-key="${CSS.escape(event.key)}"]`);
    if (!thing) return;
    event.preventDefault();
    if (["TEXTAREA", "INPUT"].includes(thing.tagName)) thing.focus();
    else thing.click();
  });
}
