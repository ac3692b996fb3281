"use strict";
/* How much of the photographs has gone over. Without this script the form is sent as it stands. */
for (const form of document.querySelectorAll("form[data-sending]")) {
  const line = form.querySelector("[data-sent]");
  const [bar, says, button] = [line.querySelector("progress"), line.querySelector("span"), form.querySelector("button")];
  const stop = (words) => { says.textContent = words; bar.hidden = true; button.disabled = false; };

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const sent = new XMLHttpRequest();
    const whole = new FormData(form);
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
    sent.addEventListener("error", () => stop("Not sent: no connection. The photographs are still chosen: press again."));
    sent.addEventListener("load", () => {
      // Where it was sent on to, opened afresh; what was refused is said by the answer itself.
      if (sent.status < 400) { globalThis.location.assign(sent.responseURL); return; }
      const answer = new DOMParser().parseFromString(sent.responseText, "text/html");
      const told = answer.querySelector("[role=alert], .notice-wrong");
      stop(told ? "" : "Not kept.");
      if (told) says.replaceChildren(document.importNode(told, true));
    });
    sent.open("POST", form.action);
    sent.send(whole);
  });
}
