"use strict";
/* How much of what is sent has gone over. Without this script the form is sent as it stands. */
document.addEventListener("submit", (event) => {
  const form = event.target.closest("form[data-sending]");
  if (!form) return;
  event.preventDefault();
  const line = form.querySelector("[data-sent]");
  const [bar, says, button] = [line.querySelector("progress"), line.querySelector("span"), form.querySelector("button")];
  const whole = new FormData(form);
  const sent = new XMLHttpRequest();
  bar.hidden = line.hidden = false;
  bar.removeAttribute("value");
  button.disabled = true;
  says.textContent = "Sending.";
  sent.upload.addEventListener("progress", ({ lengthComputable, loaded, total }) => {
    if (!lengthComputable) return;
    bar.value = loaded / total;
    says.textContent = loaded < total
      ? `${Math.round(loaded / 1e6)} of ${Math.ceil(total / 1e6)} MB sent.`
      : "All sent; being looked at and kept.";
  });
  sent.addEventListener("error", () => {
    says.textContent = "Not sent: no connection. What you chose is still chosen: press again.";
    bar.hidden = true;
    button.disabled = false;
  });
  sent.addEventListener("load", () => {
    if (sent.status < 400) {
      // Where it was sent on to; a browser tells it without the part behind the hash.
      const drum = whole.get("drum");
      const place = form.dataset.sending || (drum ? `drum-${drum}` : "whole");
      globalThis.location.assign(`${sent.responseURL}#${place}`);
      return;
    }
    // What was refused, and what was kept of the rest, is said by the answer's own sheets.
    const answer = new DOMParser().parseFromString(sent.responseText, "text/html").querySelector("main");
    if (answer) {
      document.querySelector("main").replaceWith(document.importNode(answer, true));
      const main = document.querySelector("main");
      globalThis.htmx?.process(main);
      document.dispatchEvent(new Event("counterhoop:sheets"));
      const wrong = main.querySelector("[aria-invalid]");
      (wrong ?? main).focus();
      wrong?.scrollIntoView({ block: "center" });
    } else {
      says.textContent = "Not kept.";
      bar.hidden = true;
      button.disabled = false;
    }
  });
  sent.open("POST", form.action);
  sent.send(whole);
});
