"use strict";
/* One press copies a text. Without this script it is marked and copied by hand. */
(() => {
  for (const press of document.querySelectorAll("button[data-copies]")) {
    press.hidden = false;
    press.addEventListener("click", async () => {
      const text = document.getElementById(press.dataset.copies);
      const says = document.getElementById("listing-copied");
      try {
        await navigator.clipboard.writeText(text.value);
        says.textContent = "Copied.";
      } catch {
        // Over a plain connection a browser keeps its clipboard to itself.
        text.focus();
        text.select();
        says.textContent = "Marked: copy it now.";
      }
    });
  }
})();
