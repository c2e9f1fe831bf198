// A request that failed is said out loud, with a way to repeat it; a form is sent once.
const banner = document.getElementById("banner");
let failed = null;

function showBanner(event) {
  failed = event.detail.requestConfig;
  banner.hidden = false;
}

function release(form) {
  form.removeAttribute("aria-busy");
  form.querySelectorAll("[aria-disabled]").forEach((button) => button.removeAttribute("aria-disabled"));
}

function tryAgain() {
  banner.hidden = true;
  const { elt, triggeringEvent } = failed;
  if (!elt.isConnected) {
    location.reload();
  } else if (elt instanceof HTMLFormElement) {
    elt.requestSubmit(triggeringEvent?.submitter);
  } else {
    window.htmx.trigger(elt, triggeringEvent?.type ?? "load");
  }
}

for (const name of ["htmx:responseError", "htmx:sendError", "htmx:timeout"]) {
  document.addEventListener(name, showBanner);
}

document.addEventListener("htmx:afterRequest", (event) => {
  const form = event.detail.elt.closest("form");
  if (form) release(form);
  if (event.detail.successful) banner.hidden = true;
});

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.getAttribute("aria-busy") === "true") {
    event.preventDefault();
    event.stopImmediatePropagation();
    return;
  }
  form.setAttribute("aria-busy", "true");
  event.submitter?.setAttribute("aria-disabled", "true");
  // A download answers without leaving the page, so the form is given back after a while.
  setTimeout(() => release(form), 4000);
}, true);

window.addEventListener("pageshow", () => document.querySelectorAll("form[aria-busy]").forEach(release));
banner.querySelector("button").addEventListener("click", tryAgain);
