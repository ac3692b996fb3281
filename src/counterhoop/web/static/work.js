"use strict";
/* How far long work is, as the program tells it; with the answer the page loads itself again, but
   not under the hands of whoever is typing into a form that only its button sends.
   A line that breaks is taken up again by the browser itself. */
(() => {
  let typing = false;
  document.addEventListener("input", (event) => {
    const form = event.target instanceof Element ? event.target.closest("form") : null;
    typing = typing || (form !== null && !form.matches("[data-keep]"));
  });

  function tellInstead(place) {
    const line = document.createElement("p");
    const again = document.createElement("a");
    again.className = "to-place";
    again.href = location.pathname + location.search;
    again.textContent = "Show it";
    line.append("Worked out. Write down first what you are typing, or ", again, ".");
    place.replaceChildren(line);
  }

  for (const one of document.querySelectorAll("[data-work]")) {
    const told = new EventSource(one.dataset.work);
    told.addEventListener("message", (event) => { one.innerHTML = event.data; });
    told.addEventListener("done", () => {
      told.close();
      if (typing) tellInstead(one);
      else globalThis.location.reload();
    });
  }
})();
