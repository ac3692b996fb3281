"use strict";
/* When long work has its answer the page that waits for it loads itself again. */
document.addEventListener("done", (event) => {
  if (event.target.closest?.("[data-work]")) globalThis.location.reload();
});
