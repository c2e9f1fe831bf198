// An exercise of a session changes its place: dragged by its handle, or by Alt with the arrow up or down.
// The buttons do the same without it; where it stands then is said aloud in each case.
const EDGE = 60;
let moved = "";
let drag = null;

const lineOf = (element) => element?.closest?.("li[data-place]") ?? null;

function send(line, url, values = {}) {
  moved = line.id;
  const arrange = new URLSearchParams(location.search).has("arrange") || document.querySelector("[data-drag]");
  window.htmx.ajax("POST", arrange ? `${url}?arrange=1` : url, { target: "#work", swap: "outerHTML show:none", values });
}

function tell() {
  const line = moved && document.getElementById(moved);
  if (!line) return;
  document.getElementById("told").textContent = line.dataset.place;
  moved = "";
}

document.addEventListener("keydown", (event) => {
  const line = lineOf(event.target);
  if (!line || !event.altKey || !["ArrowUp", "ArrowDown"].includes(event.key)) return;
  event.preventDefault();
  send(line, event.key === "ArrowUp" ? line.dataset.up : line.dataset.down);
});

document.addEventListener("htmx:beforeRequest", (event) => {
  const line = lineOf(event.detail.elt);
  if (line && event.detail.requestConfig.path.includes("/move/")) moved = line.id;
});
document.addEventListener("htmx:afterSettle", tell);

function begin(event) {
  const line = event.target.closest("[data-drag]") && lineOf(event.target);
  if (!line || event.button) return;
  event.preventDefault();
  event.target.setPointerCapture(event.pointerId);
  const mark = document.createElement("li");
  mark.className = "drop";
  mark.setAttribute("aria-hidden", "true");
  drag = { line, mark };
  line.classList.add("dragged");
}

function follow(event) {
  if (!drag) return;
  if (event.clientY < EDGE) window.scrollBy(0, -12);
  if (event.clientY > window.innerHeight - EDGE) window.scrollBy(0, 12);
  const under = document.elementFromPoint(event.clientX, event.clientY);
  const line = lineOf(under);
  if (line) {
    const { top, height } = line.getBoundingClientRect();
    line[event.clientY < top + height / 2 ? "before" : "after"](drag.mark);
  } else {
    under?.closest(".body, .sub-block")?.querySelector("[data-block]")?.append(drag.mark);
  }
}

function end() {
  drag?.line.classList.remove("dragged");
  drag?.mark.remove();
  drag = null;
}

function drop() {
  if (!drag) return;
  const { line, mark } = drag;
  const block = mark.closest("[data-block]");
  const before = block ? [...block.children].filter((one) => one === mark || (one !== line && lineOf(one) === one)) : [];
  const place = before.indexOf(mark);
  end();
  if (block) send(line, line.dataset.to, { group: block.dataset.block, place });
}

document.addEventListener("pointerdown", begin);
document.addEventListener("pointermove", follow);
document.addEventListener("pointerup", drop);
document.addEventListener("pointercancel", end);
document.addEventListener("keydown", (event) => { if (event.key === "Escape") end(); });
