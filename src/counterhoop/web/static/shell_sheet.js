"use strict";
/* After a tap on the shell, writing goes on in the form: first the size, which the tap cannot know.
   With the size the near side is written anew, for a tap means the middle of a hole. */

(() => {
  let placed = null;

  const shellNamed = (ident) => document.querySelector(`[data-shell="${ident}"]`);
  const formOf = (shell) => document.querySelector(shell.dataset.placeInto || "#none");
  const sizeIn = (form) => form.querySelector('[name="dia"]');
  const textsOf = (form) => ["along", "near"].map((name) => form.querySelector(`[data-place="${name}"]`)?.value).join("\n");

  document.addEventListener("shell:placed", (event) => {
    const shell = shellNamed(event.detail.ident);
    const form = formOf(shell);
    if (!form) return;
    const again = placed?.again;
    placed = { shell, form, texts: textsOf(form), sized: Boolean(sizeIn(form)?.value) };
    if (again) return;
    const empty = [...form.querySelectorAll('input[type="text"]')].find((field) => !field.value && field.checkVisibility());
    (placed.sized ? empty : sizeIn(form) || empty)?.focus();
  });

  document.addEventListener("change", (event) => {
    if (!placed || placed.sized || event.target !== sizeIn(placed.form)) return;
    if (!event.target.value || textsOf(placed.form) !== placed.texts) return;
    placed.again = true;
    placed.shell.querySelector("[data-shell-cross]")
      ?.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
  });
})();
