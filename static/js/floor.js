// The floor page is renewed while it is being read: what was open stays open.
let open = [];

document.addEventListener("htmx:beforeSwap", (event) => {
  if (event.detail.target.id === "live") {
    open = [...event.detail.target.querySelectorAll("details[open]")].map((one) => one.id);
  }
});

document.addEventListener("htmx:afterSettle", () => {
  for (const id of open) document.getElementById(id)?.setAttribute("open", "");
});
