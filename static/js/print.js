// The browser's own printing, from a button.
document.querySelector("[data-print]")?.addEventListener("click", () => window.print());
