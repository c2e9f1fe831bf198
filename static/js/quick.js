// The boxes of quick entry: Enter takes the plan and goes on along the card, arrows move, a pasted table fills them.
const grid = document.querySelector("[data-quick]");
const lines = [...grid.tBodies].flatMap((body) => [...body.rows]);
const boxes = [...grid.querySelectorAll("[data-c]")];
const column = (box) => Number(box.dataset.c);
const boxAt = (row, c) => lines[row]?.querySelector(`[data-c="${c}"]`);
const save = document.querySelector("[data-save]");
const told = document.getElementById("told");
let isSending = false;

// As a card is read: one exercise through its rounds, then the next, then the next athlete.
const path = [...grid.tBodies].flatMap((body) =>
  [...body.querySelectorAll("[data-c]")].sort((a, b) => column(a) - column(b)));

function go(box) {
  if (!box) return;
  box.focus();
  box.select?.();
}

function enter(event, box) {
  event.preventDefault();
  if (event.shiftKey) return go(path[path.indexOf(box) - 1]);
  if (!box.value.trim()) box.value = box.dataset.plan ?? "";
  go(path[path.indexOf(box) + 1] ?? save);
}

function vertical(event, box, step) {
  event.preventDefault();
  for (let row = lines.indexOf(box.closest("tr")) + step; row >= 0 && row < lines.length; row += step) {
    const next = boxAt(row, column(box));
    if (next) return go(next);
  }
}

// Inside a text the arrows move the caret; at its end, or where all of it is marked, they leave the box.
function sideways(event, box, step) {
  const { selectionStart: start, selectionEnd: end, value } = box;
  const isAll = start === 0 && end === value.length;
  if (!isAll && (start !== end || start !== (step < 0 ? 0 : value.length))) return;
  const row = [...box.closest("tr").querySelectorAll("[data-c]")];
  const next = row[row.indexOf(box) + step];
  if (!next) return;
  event.preventDefault();
  go(next);
}

const KEYS = {
  Enter: enter,
  ArrowUp: (event, box) => vertical(event, box, -1),
  ArrowDown: (event, box) => vertical(event, box, 1),
  ArrowLeft: (event, box) => sideways(event, box, -1),
  ArrowRight: (event, box) => sideways(event, box, 1),
  Escape: (event, box) => { box.value = box.defaultValue; box.select(); },
};

grid.addEventListener("keydown", (event) => {
  const box = event.target;
  if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
    event.preventDefault();
    return save.click();
  }
  if (event.isComposing || event.altKey || event.ctrlKey || event.metaKey || !box.matches("[data-c]")) return;
  KEYS[event.key]?.(event, box);
});

grid.addEventListener("focusin", (event) => event.target.select?.());

grid.addEventListener("paste", (event) => {
  const box = event.target;
  const text = event.clipboardData.getData("text").replace(/\r\n?/g, "\n").replace(/\n$/, "");
  if (!/[\t\n]/.test(text)) return;
  event.preventDefault();
  const first = lines.indexOf(box.closest("tr"));
  const homeless = [];
  let filled = 0;
  text.split("\n").forEach((row, down) => row.split("\t").forEach((value, right) => {
    const next = boxAt(first + down, column(box) + right);
    if (next) {
      next.value = value.trim();
      filled += 1;
    } else if (value.trim()) homeless.push(value.trim());
  }));
  const { filled: done, left } = told.dataset;
  told.textContent = `${done} ${filled}.` + (homeless.length ? ` ${left} ${homeless.join(", ")}` : "");
  told.classList.toggle("note", homeless.length > 0);
  told.classList.toggle("sr", homeless.length === 0);
});

grid.closest("form").addEventListener("submit", () => { isSending = true; });
window.addEventListener("pageshow", () => { isSending = false; });
window.addEventListener("beforeunload", (event) => {
  const isUnsaved = "unsaved" in grid.dataset || boxes.some((box) => box.value !== box.defaultValue);
  if (isUnsaved && !isSending) event.preventDefault();
});
