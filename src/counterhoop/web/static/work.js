"use strict";
/* How far long work is, as the program tells it; with the answer the page loads itself again.
   A line that breaks is taken up again by the browser itself. */
for (const one of document.querySelectorAll("[data-work]")) {
  const told = new EventSource(one.dataset.work);
  told.addEventListener("message", (event) => { one.innerHTML = event.data; });
  told.addEventListener("done", () => {
    told.close();
    globalThis.location.reload();
  });
}
