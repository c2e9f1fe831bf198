// Sends a card's forms without leaving the page, and says so when it could not. Everything works without this file.
const TIMEOUT_MS = 15000;
const sentBefore = new WeakMap();

function newUuid() {
  if (crypto.randomUUID) return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

// The same content that got no answer keeps its uuid: it may have arrived after all.
function contentOf(form, button) {
  const data = new FormData(form, button);
  data.delete("uuid");
  data.delete("csrfmiddlewaretoken");
  const content = new URLSearchParams(data).toString();
  const last = sentBefore.get(form);
  const uuid = last && last.content === content ? last.uuid : newUuid();
  sentBefore.set(form, { content, uuid });
  form.elements.uuid.value = uuid;
  return new URLSearchParams(new FormData(form, button));
}

function setSent(isSent) {
  const banner = document.getElementById("unsent");
  const state = document.getElementById("sent");
  if (banner) banner.hidden = isSent;
  if (state && !isSent) {
    state.textContent = state.dataset.unsent;
    state.classList.add("not");
  }
}

function release(form) {
  form.removeAttribute("aria-busy");
  form.querySelectorAll(".pressed").forEach((button) => button.classList.remove("pressed"));
}

// What was typed in a line that this sending did not concern stays typed.
function keepTyped(from, to) {
  from.querySelectorAll("input[id]:not([type=hidden]),select[id]").forEach((field) => {
    const now = to.querySelector(`#${CSS.escape(field.id)}`);
    if (now && now.type !== "radio" && !now.value) now.value = field.value;
  });
}

function show(html, url, hasMoved) {
  const page = new DOMParser().parseFromString(html, "text/html");
  const main = document.querySelector("main");
  const fresh = page.querySelector("main");
  if (new URL(url).pathname === location.pathname) keepTyped(main, fresh);
  document.title = page.title;
  main.replaceWith(document.adoptNode(fresh));
  if (hasMoved) history.replaceState(null, "", url);
  const place = fresh.querySelector(".bad :is(input,select)") ?? fresh.querySelector("#now, [role=alert]:not([hidden])");
  place?.scrollIntoView({ block: "nearest" });
  (place?.matches("input,select") ? place : fresh).focus({ preventScroll: true });
  startClock();
  hold();
}

async function send(form, button) {
  form.setAttribute("aria-busy", "true");
  button?.classList.add("pressed");
  try {
    const response = await fetch(form.action, {
      method: "POST",
      body: contentOf(form, button),
      signal: AbortSignal.timeout(TIMEOUT_MS),
    });
    const isAnswer = response.ok || response.status === 409 || response.status === 422 || response.status === 503;
    if (!isAnswer) throw new Error(`status ${response.status}`);
    if (new URL(response.url).pathname.startsWith("/g/")) show(await response.text(), response.url, response.redirected);
    else location.assign(response.url);
  } catch {
    release(form);
    setSent(false);
  }
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!form.matches("form[data-send]")) return;
  event.preventDefault();
  if (form.getAttribute("aria-busy") !== "true") send(form, event.submitter);
});

// Steps go along what can be loaded here; without such a list, one by one.
function step(button) {
  const input = button.parentElement.querySelector("input");
  const steps = button.parentElement.dataset.steps.split(" ").filter(Boolean).map(Number);
  const way = Number(button.dataset.step);
  const value = Number(input.value.replace(",", ".")) || 0;
  const next = way > 0 ? steps.find((s) => s > value) : steps.findLast((s) => s < value);
  input.value = String(steps.length ? next ?? value : Math.max(0, value + way));
}

// The second half of a double tap would land on the button of the round after.
const DOUBLE_TAP_MS = 250;
let pressedAt = -DOUBLE_TAP_MS;
let holding = 0;

// Until then the buttons say that they do not listen.
function hold() {
  const buttons = document.querySelectorAll("form[data-send] button:not([data-step])");
  const left = pressedAt + DOUBLE_TAP_MS - performance.now();
  clearTimeout(holding);
  if (left > 0) {
    buttons.forEach((button) => button.setAttribute("aria-disabled", "true"));
    holding = setTimeout(hold, left);
  } else buttons.forEach((button) => button.removeAttribute("aria-disabled"));
}

document.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (button?.dataset.step) step(button);
  else if (button?.closest("form[data-send]")) {
    if (event.timeStamp - pressedAt < DOUBLE_TAP_MS) event.preventDefault();
    pressedAt = event.timeStamp;
    hold();
  }
});

const clockText = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
let ticking = 0;

// "rested 1:12 of 2:00", from what the server said at loading: two clocks need not agree.
function startClock() {
  document.querySelectorAll("[data-step][hidden]").forEach((button) => { button.hidden = false; });
  clearInterval(ticking);
  const rest = document.querySelector("[data-ago]");
  if (!rest) return;
  const began = Date.now() - 1000 * Number(rest.dataset.ago);
  const wanted = Number(rest.dataset.wanted);
  const tick = () => {
    const ago = Math.floor((Date.now() - began) / 1000);
    rest.textContent = rest.dataset.words.replace("{ago}", clockText(ago)).replace("{wanted}", clockText(wanted));
    rest.classList.toggle("over", ago >= wanted);
  };
  tick();
  ticking = setInterval(tick, 1000);
}

startClock();
