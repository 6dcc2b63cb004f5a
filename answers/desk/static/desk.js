// Live figures, the proof as you type, and keys. Every page works without this file.
"use strict";

const csrf = () => document.querySelector("input[name=csrf]")?.value ?? "";

// What the desk answers; `fault` says why it could not.
async function post(address, fields) {
  try {
    const answer = await fetch(address, { method: "POST", body: new URLSearchParams({ ...fields, csrf: csrf() }) });
    const made = await answer.json();
    return made.fault ? { fault: `Cannot be read: ${made.fault}` } : made;
  } catch {
    return { fault: "The desk does not answer; what stands here is not up to date." };
  }
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

const marksIn = (n) => (n === 1 ? "1 mark" : `${n} marks`);

// Figures: worked again while a number is typed; kept only when the button is pressed.
for (const results of document.querySelectorAll("[data-live]")) {
  const form = results.closest("form");
  let asked = 0;
  const work = later(async () => {
    const mine = ++asked;
    const given = Object.fromEntries(new FormData(form));
    const made = await post(results.dataset.live, given);
    if (mine !== asked) return;
    const lines = (made.figures ?? []).map((figure) => element("p", figure.words, "figure"));
    const refused = (made.fault ? [made.fault] : made.refused).map((words) => element("p", words, "note"));
    results.replaceChildren(...lines, ...refused);
  }, 200);
  form.addEventListener("input", work);
}

// One mark's line in the margin, as the server writes it.
function lineOf(mark) {
  const line = element("li", "", mark.reason ? "accepted" : "open");
  line.append(element("strong", mark.sort), " ", element("span", mark.message));
  if (mark.reason) line.append(" ", element("em", `Stands: ${mark.reason}`));
  return line;
}

function showButton(text, mark) {
  const show = element("button", "Show", "quiet show");
  show.type = "button";
  show.append(element("span", `: ${mark.words}`, "unseen"));
  show.addEventListener("click", () => { text.focus(); text.setSelectionRange(mark.start, mark.end); });
  return show;
}

// Puts lines into a list without moving those that stay, so that what somebody writes in one keeps its focus.
function lay(list, lines) {
  for (const old of [...list.children]) if (!lines.includes(old)) old.remove();
  lines.forEach((line, i) => { if (list.children[i] !== line) list.insertBefore(line, list.children[i] ?? null); });
}

// The proof of a text while it is written.
for (const text of document.querySelectorAll("textarea[data-proof]")) {
  const margin = document.querySelector(`[data-margin="${text.id}"]`);
  if (!margin) continue;
  const list = margin.querySelector(".marks");
  const count = margin.querySelector("[data-count]");
  const filled = margin.querySelector("[data-filled]");
  const inSummary = text.closest("details")?.querySelector("summary [data-open]");
  const seconds = text.closest("details")?.querySelector("summary [data-seconds]");
  const ofKept = [...list.querySelectorAll("[data-mark-key]")]; // with the forms that let them stand
  const part = text.form.querySelector("input[name=part]")?.value ?? "email";
  let asked = 0;
  text.addEventListener("input", later(async () => {
    const mine = ++asked;
    const made = await post(text.dataset.proof, { part, text: text.value });
    if (mine !== asked) return;
    if (made.fault) {
      lay(list, [element("li", made.fault, "open")]);
      if (count) count.textContent = made.fault;
      return;
    }
    const unused = [...ofKept];
    const lines = made.marks.map((mark) => {
      const at = unused.findIndex((line) => line.dataset.markKey === mark.key);
      const line = at < 0 ? lineOf(mark) : unused.splice(at, 1)[0];
      line.querySelector("span").textContent = mark.message;
      line.querySelector(".show")?.remove();
      if (mark.start >= 0) line.querySelector("span").after(" ", showButton(text, mark));
      return line;
    });
    lay(list, lines.length ? lines : [element("li", "Nothing to mark.", "none")]);
    const open = made.marks.filter((mark) => !mark.reason).length;
    if (count) count.textContent = open ? marksIn(open) : "Nothing to mark";
    if (inSummary) inSummary.textContent = open ? `, ${marksIn(open)}` : "";
    if (filled) filled.textContent = made.filled;
    if (seconds && made.seconds !== null) seconds.textContent = made.seconds;
  }, 350));
}

// Words and numbers that are not kept are not lost by a slip: keeping one form does not lose another's.
const unkept = new Set();
let sending = null;
for (const field of document.querySelectorAll("form textarea, .figures input")) {
  field.addEventListener("input", () => { unkept.add(field.form); });
  if (field.tagName !== "TEXTAREA") continue;
  field.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) field.form.requestSubmit(field.form.querySelector("button.keeps"));
  });
}
addEventListener("submit", (event) => {
  sending = event.target;
  sessionStorage.setItem("done", "yes");
});
addEventListener("beforeunload", (event) => {
  if ([...unkept].some((form) => form !== sending)) event.preventDefault();
  sending = null; // who stays has not kept it
});

// After a step: a fault gets the focus; else what was done is said.
const fault = document.querySelector("#fault");
const said = document.querySelector(".last-step [role=status]");
if (fault) fault.focus();
else if (said && sessionStorage.getItem("done")) setTimeout(() => { said.replaceChildren(said.textContent); }, 300);
sessionStorage.removeItem("done");

// Keys: one letter for each thing marked with data-key; j and k walk through lists. They can be turned off.
const on = document.querySelector("#keys-on");
if (on) {
  on.checked = localStorage.getItem("keys") !== "off";
  on.addEventListener("change", () => localStorage.setItem("keys", on.checked ? "on" : "off"));
  const list = document.querySelector("#key-list");
  const keyed = new Map();
  for (const thing of document.querySelectorAll("[data-key]")) {
    if (keyed.has(thing.dataset.key)) continue; // the first of its key on the page has it
    keyed.set(thing.dataset.key, thing);
    thing.setAttribute("aria-keyshortcuts", thing.dataset.key);
    const own = thing.textContent.trim().replace(/\s+/g, " ") + ("keyFocus" in thing.dataset ? ", then Enter" : "");
    const words = thing.tagName === "TEXTAREA" ? "write" : thing.tagName === "INPUT" ? "first field" : own;
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
    const thing = keyed.get(event.key);
    if (!thing) return;
    event.preventDefault();
    const within = thing.tagName === "SUMMARY" ? thing.parentElement.parentElement : thing;
    for (let shut; (shut = within.closest("details:not([open])")); ) shut.open = true;
    thing.focus();
    if (!["TEXTAREA", "INPUT"].includes(thing.tagName) && !("keyFocus" in thing.dataset)) thing.click();
  });
}
