// A type-ahead for a text field inside [data-picker]: the server's matches as a list, by keyboard or touch.
// Without it the field still works: the server finds the exercise by its name or another name.
let waiting = 0;
let asked = 0;
let count = 0;

function listOf(input) {
  const id = input.getAttribute("aria-controls");
  return id && document.getElementById(id);
}

function prepare(input) {
  if (listOf(input)) return;
  count += 1;
  const list = document.createElement("ul");
  Object.assign(list, { id: `picker-${count}`, className: "picks", hidden: true });
  list.setAttribute("role", "listbox");
  list.setAttribute("aria-label", input.labels[0]?.textContent.trim() ?? "");
  input.after(list);
  for (const [name, value] of Object.entries({
    role: "combobox", "aria-autocomplete": "list", "aria-expanded": "false", "aria-controls": list.id,
  })) input.setAttribute(name, value);
}

function close(input) {
  clearTimeout(waiting);
  asked += 1;
  const list = listOf(input);
  if (list) list.hidden = true;
  input.setAttribute("aria-expanded", "false");
  input.removeAttribute("aria-activedescendant");
}

async function ask(input) {
  asked += 1;
  const mine = asked;
  const url = `${input.closest("[data-picker]").dataset.picker}&q=${encodeURIComponent(input.value)}`;
  const reply = await fetch(url, { headers: { "HX-Request": "true" } }).catch(() => null);
  if (mine !== asked || !reply?.ok || document.activeElement !== input) return;
  const list = listOf(input);
  list.innerHTML = await reply.text();
  [...list.children].forEach((option, number) => { option.id = `${list.id}-${number}`; });
  list.dataset.answers = input.value;
  list.hidden = list.children.length === 0;
  input.setAttribute("aria-expanded", String(!list.hidden));
  input.removeAttribute("aria-activedescendant");
}

// What stands in the list may answer an earlier letter: ask again before anything in it is marked.
async function mark(input, step) {
  if (listOf(input).dataset.answers !== input.value) {
    clearTimeout(waiting);
    await ask(input);
  }
  const options = [...listOf(input).children];
  if (listOf(input).hidden) return;
  const now = options.findIndex((option) => option.getAttribute("aria-selected") === "true");
  const next = now < 0 && step < 0 ? options.length - 1 : (now + step + options.length) % options.length;
  options.forEach((option, number) => option.setAttribute("aria-selected", String(number === next)));
  input.setAttribute("aria-activedescendant", options[next].id);
  options[next].scrollIntoView({ block: "nearest" });
}

function pick(input, option) {
  input.value = option.dataset.name;
  close(input);
  input.dispatchEvent(new Event("change", { bubbles: true }));
}

const fieldOf = (event) => (event.target instanceof HTMLInputElement && event.target.closest("[data-picker]") ? event.target : null);

document.addEventListener("focusin", (event) => {
  const input = fieldOf(event);
  if (input) prepare(input);
});

document.addEventListener("input", (event) => {
  const input = fieldOf(event);
  if (!input) return;
  prepare(input);
  clearTimeout(waiting);
  waiting = setTimeout(ask, 150, input);
});

document.addEventListener("keydown", (event) => {
  const input = fieldOf(event);
  if (!input || listOf(input)?.hidden !== false) return;
  if (event.key === "ArrowDown" || event.key === "ArrowUp") {
    event.preventDefault();
    mark(input, event.key === "ArrowDown" ? 1 : -1);
  } else if (event.key === "Escape") {
    event.preventDefault();
    close(input);
  } else if (event.key === "Enter") {
    const option = listOf(input).querySelector("[aria-selected=true]");
    if (!option || listOf(input).dataset.answers !== input.value) return;
    event.preventDefault();
    pick(input, option);
  }
});

document.addEventListener("pointerdown", (event) => {
  const option = event.target.closest(".picks > li");
  if (!option) return;
  event.preventDefault();
  pick(option.parentElement.previousElementSibling, option);
});

document.addEventListener("focusout", (event) => {
  const input = fieldOf(event);
  if (input) close(input);
});
