"use strict";
/* How far long work is, as the program tells it; with the answer the page loads itself again, but
   not over what somebody is typing. A line that breaks is taken up again by the browser itself. */
const typing = () => [...document.querySelectorAll("input:not([type=hidden], [type=checkbox]), textarea")]
  .some((field) => field.value !== field.defaultValue);
for (const one of document.querySelectorAll("[data-work]")) {
  const told = new EventSource(one.dataset.work);
  told.addEventListener("message", (event) => { one.innerHTML = event.data; });
  told.addEventListener("done", () => {
    told.close();
    if (!typing()) {
      globalThis.location.reload();
      return;
    }
    const again = document.createElement("a");
    again.href = globalThis.location.href.split("#")[0];
    again.textContent = "It is there: load the page again when what you typed is written down";
    one.replaceChildren(again);
  });
}
