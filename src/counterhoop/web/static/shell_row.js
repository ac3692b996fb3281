"use strict";
/* A row of lugs moved by hand: dragged on the drawing, or by arrow keys on its button. Its ghost
   moves at once; the server plans again with one question at a time, and the last place wins. */

(() => {
  const { shellNamed, shellOf, frameOf, svgOf, factsOf, rounded, say, tell, send, drawn, refresh, WAYS } = shellFlat;
  const REST_MS = 700;
  const WAIT_S = [1, 2, 4, 8, 15, 30];
  const rows = new Map();
  let drag = null;

  const same = (a, b) => Math.abs(a[0] - b[0]) < 0.01 && Math.abs(a[1] - b[1]) < 0.01;
  const moverOf = (ident, name) =>
    [...document.querySelectorAll("[data-move-url]")].find((m) => m.dataset.shellOf === ident && m.dataset.rowOf === name);

  /* What is known of a row while it is moved: where it is wanted, where it was when this move
     began, and what the server was last told and has kept. */
  function rowOf(ident, name) {
    const key = `${ident} ${name}`;
    if (!rows.has(key)) {
      const at = factsOf(shellNamed(ident)).drawn[name] || [0, 0];
      rows.set(key, { ident, name, want: at, began: null, asked: at, kept: at, settle: false, unheard: null, busy: false, failed: 0, timer: 0, retry: 0 });
    }
    return rows.get(key);
  }

  const nameOf = (row) => moverOf(row.ident, row.name)?.dataset.rowSays || row.name;

  function wordsOf(row) {
    const { units } = factsOf(shellNamed(row.ident));
    const [right, down] = row.want;
    const parts = [];
    if (Math.abs(right) > 0.01) parts.push(`${say(Math.abs(right), units)} to the ${right > 0 ? "right" : "left"}`);
    if (Math.abs(down) > 0.01) parts.push(`${say(Math.abs(down), units)} ${down > 0 ? "down" : "up"}`);
    return parts.join(" and ") || "where its scheme put it";
  }

  /* --- the ghost ----------------------------------------------------------------------------- */

  function showGhost(row) {
    const shell = shellNamed(row.ident);
    const svg = svgOf(shell);
    svg.querySelectorAll(".ghost").forEach((node) => node.remove());
    const parts = [...svg.querySelectorAll("[data-row]")].filter((node) => node.dataset.row === row.name);
    const at = factsOf(shell).drawn[row.name] || [0, 0];
    const away = !same(row.want, at);
    parts.forEach((node) => node.classList.toggle("lifted", away));
    if (!away) return;
    const by = `translate(${row.want[0] - at[0]} ${row.want[1] - at[1]})`;
    const ghost = drawn("g", { class: "ghost", "aria-hidden": "true", transform: by }, svg);
    for (const node of parts) {
      const copy = node.cloneNode(true);
      for (const one of [copy, ...copy.querySelectorAll("*")]) {
        for (const name of ["id", "tabindex", "role", "aria-label", "data-hole", "data-row"]) one.removeAttribute(name);
      }
      copy.classList.remove("lifted", "movable", "picked");
      ghost.append(copy);
    }
  }

  function writeFields(row) {
    const mover = moverOf(row.ident, row.name);
    const { units } = factsOf(shellNamed(row.ident));
    if (!mover) return;
    mover.elements.right_mm.value = say(row.want[0], units);
    mover.elements.down_mm.value = say(row.want[1], units);
  }

  function want(row, right, down) {
    const { units } = factsOf(shellNamed(row.ident));
    row.want = [rounded(right, units), rounded(down, units)];
    showGhost(row);
    writeFields(row);
    send("shell:moved", { ident: row.ident, row: row.name, right_mm: row.want[0], down_mm: row.want[1], settled: false });
    pump(row);
  }

  function settle(row) {
    clearTimeout(row.timer);
    row.timer = 0;
    row.began = null;
    row.settle = true;
    tell(shellNamed(row.ident), `${nameOf(row)}: ${wordsOf(row)}.`);
    pump(row);
  }

  function takeBack(row) {
    const back = row.began || row.kept;
    row.began = null;
    clearTimeout(row.timer);
    want(row, ...back);
    row.settle = !same(row.kept, back);
    tell(shellNamed(row.ident), `Taken back. ${nameOf(row)}: ${wordsOf(row)}.`);
    pump(row);
  }

  /* --- asking the server --------------------------------------------------------------------- */

  async function pump(row) {
    if (row.busy || row.retry) return;
    let settled = row.settle && !same(row.want, row.kept);
    if (!settled) row.settle = false;
    if (same(row.want, row.asked) && !settled && !row.unheard) return;
    const mover = moverOf(row.ident, row.name);
    if (!mover) return;
    row.busy = true;
    let at = row.want;
    // A place that was let go and had no answer goes again first, as it was: it may be written.
    if (row.unheard) ({ at, settled } = row.unheard);
    else if (settled) row.unheard = { at, settled, asked: ask(mover, row, at, settled) };
    let answer = null;
    try {
      answer = await fetch(mover.dataset.moveUrl, row.unheard?.asked || ask(mover, row, at, settled));
      const body = await answer.text();
      if ([502, 503, 504].includes(answer.status)) throw new Error("away");
      row.busy = false;
      row.unheard = null;
      heard(row, at, settled, answer, body);
    } catch (fault) {
      row.busy = false;
      if (!(fault instanceof TypeError) && fault.message !== "away") throw fault;
      lost(row);
      return;
    }
    pump(row);
  }

  function ask(mover, row, at, settled) {
    const body = new URLSearchParams({
      row: row.name, right_mm: at[0].toFixed(3), down_mm: at[1].toFixed(3),
      based_on: mover.elements.based_on.value, settled: settled ? "yes" : "no",
    });
    for (const field of mover.querySelectorAll("input[type='hidden']")) {
      if (!body.has(field.name)) body.set(field.name, field.value);
    }
    const headers = { "HX-Request": "true", Accept: "text/html" };
    // What is only tried writes nothing: it may be asked as often as one likes.
    if (settled) headers["X-Sent-Once"] = crypto.getRandomValues(new Uint32Array(4)).join("-");
    return { method: "POST", body, credentials: "same-origin", headers };
  }

  function heard(row, at, settled, answer, body) {
    const shell = shellNamed(row.ident);
    if (row.failed) tell(shell, "The connection is back.");
    row.failed = 0;
    row.asked = at;
    const came = swap(row, body);
    if (answer.ok) {
      if (settled) {
        row.kept = at;
        renew(row);
        if (same(row.want, at)) row.settle = false;
        send("shell:moved", { ident: row.ident, row: row.name, right_mm: at[0], down_mm: at[1], settled: true });
      }
    } else {
      refused(row, answer, body);
    }
    if (came) refresh(shell);
    showGhost(row);
  }

  /* The forms that take another scheme were made on the version before: they go on from this one. */
  function renew(row) {
    const mover = moverOf(row.ident, row.name);
    const sheet = mover.getAttribute("action").replace(/[^/]*$/, "");
    for (const form of document.forms) {
      if (form.getAttribute("action") === `${sheet}take` && form.elements.based_on) form.elements.based_on.value = mover.elements.based_on.value;
    }
  }

  /* What was refused is taken back to what is drawn, and said in the server's own words. */
  function refused(row, answer, body) {
    const shell = shellNamed(row.ident);
    row.settle = false;
    row.began = null;
    if (drag?.row === row) drop();
    row.want = row.asked = factsOf(shell).drawn[row.name] || row.kept;
    writeFields(row);
    tell(shell, complaint(answer, body), true);
  }

  function complaint(answer, body) {
    if ([401, 403].includes(answer.status)) return "This bench is not let in any more: load the page again.";
    const page = new DOMParser().parseFromString(body, "text/html");
    const said = page.querySelector("[role='alert']")?.textContent.trim().replace(/\s+/g, " ");
    return said || `The move was not taken (answer ${answer.status}). The row is where it was.`;
  }

  function swap(row, body) {
    const mover = moverOf(row.ident, row.name);
    const names = [`${row.ident}-picture`, mover.elements.based_on.id, ...mover.dataset.swap.split(/\s+/)];
    const page = new DOMParser().parseFromString(body, "text/html");
    const focused = document.activeElement?.id;
    let drawing = false;
    for (const name of names.filter(Boolean)) {
      const fresh = page.getElementById(name);
      const old = document.getElementById(name);
      if (!fresh || !old) continue;
      const node = document.importNode(fresh, true);
      if (drag && old.contains(drag.part)) setAside(old, node);
      else old.replaceWith(node);
      drawing ||= name === names[0];
      globalThis.htmx?.process?.(node);
    }
    if (focused && document.activeElement?.id !== focused) document.getElementById(focused)?.focus();
    return drawing;
  }

  /* A finger is lost to the page when what it came down on is taken out of it: the drawing that is
     held stays, unseen and without names, until it is let go. */
  function setAside(old, node) {
    old.before(node);
    old.hidden = true;
    old.className = "shell-before";
    for (const one of [old, ...old.querySelectorAll("[id]")]) one.removeAttribute("id");
    old.querySelector("svg").classList.remove("shell-flat");
  }

  function lost(row) {
    const wait = WAIT_S[Math.min(row.failed, WAIT_S.length - 1)];
    row.failed += 1;
    tell(shellNamed(row.ident), "The connection is lost. The row stays where you left it on this page, and is sent as soon as it is back.", true);
    row.retry = setTimeout(() => { row.retry = 0; pump(row); }, wait * 1000);
  }

  globalThis.addEventListener("online", () => {
    for (const row of rows.values()) {
      if (!row.retry) continue;
      clearTimeout(row.retry);
      row.retry = 0;
      pump(row);
    }
  });

  /* --- dragging ------------------------------------------------------------------------------ */

  document.addEventListener("pointerdown", (event) => {
    const part = event.target.closest?.("svg.shell-flat .movable");
    if (!part || event.button !== 0 || drag) return;
    const shell = shellOf(part);
    const row = rowOf(shell.dataset.shell, part.dataset.row);
    if (!moverOf(row.ident, row.name)) return;
    const frame = frameOf(shell);
    drag = {
      row, shell, frame, part, pointer: event.pointerId, moved: false, at: row.want,
      x: event.clientX + frame.scrollLeft, y: event.clientY + frame.scrollTop, scale: svgOf(shell).getScreenCTM().a,
    };
    row.began ||= row.want;
  });

  document.addEventListener("pointermove", (event) => {
    if (!drag || event.pointerId !== drag.pointer) return;
    const dx = event.clientX + drag.frame.scrollLeft - drag.x;
    const dy = event.clientY + drag.frame.scrollTop - drag.y;
    if (!drag.moved && Math.hypot(dx, dy) < 4) return;
    if (!drag.moved) {
      drag.moved = true;
      drag.shell.dataset.dragged = "yes";
      // The frame stays when the drawing in it is replaced, so it keeps hold of the pointer.
      drag.frame.setPointerCapture(event.pointerId);
    }
    want(drag.row, drag.at[0] + dx / drag.scale, drag.at[1] + dy / drag.scale);
  });

  function drop() {
    const { shell } = drag;
    drag = null;
    // The click that ends a drag comes right after it and is no tap.
    setTimeout(() => {
      delete shell.dataset.dragged;
      shell.querySelectorAll(".shell-before").forEach((node) => node.remove());
    }, 0);
  }

  document.addEventListener("pointerup", (event) => {
    if (!drag || event.pointerId !== drag.pointer) return;
    const { row, moved } = drag;
    drop();
    if (moved) settle(row);
    else row.began = null;
  });

  document.addEventListener("pointercancel", (event) => {
    if (!drag || event.pointerId !== drag.pointer) return;
    const { row } = drag;
    drop();
    takeBack(row);
  });

  /* --- keys and nudges ----------------------------------------------------------------------- */

  function nudge(mover, way, far) {
    const row = rowOf(mover.dataset.shellOf, mover.dataset.rowOf);
    const facts = factsOf(shellNamed(row.ident));
    const step = far ? facts.far : facts.step;
    row.began ||= row.want;
    want(row, row.want[0] + way[0] * step, row.want[1] + way[1] * step);
    tell(shellNamed(row.ident), `${nameOf(row)}: ${wordsOf(row)}`);
    clearTimeout(row.timer);
    row.timer = setTimeout(() => settle(row), REST_MS);
  }

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && drag) {
      const { row } = drag;
      drop();
      takeBack(row);
      event.preventDefault();
      return;
    }
    const handle = event.target.closest?.("[data-row-handle]");
    if (!handle || event.altKey || event.ctrlKey || event.metaKey) return;
    const mover = handle.closest("[data-move-url]");
    if (WAYS[event.key]) nudge(mover, WAYS[event.key], event.shiftKey);
    else if (event.key === "Escape") takeBackFocused(mover);
    else return;
    event.preventDefault();
  });

  /* From its button a move begins when the button is reached, so Escape undoes all since then. */
  const since = new Map();
  document.addEventListener("focusin", (event) => {
    const handle = event.target.closest?.("[data-row-handle]");
    if (!handle) return;
    const row = rowOf(handle.closest("[data-move-url]").dataset.shellOf, handle.closest("[data-move-url]").dataset.rowOf);
    since.set(row, row.want);
  });

  function takeBackFocused(mover) {
    const row = rowOf(mover.dataset.shellOf, mover.dataset.rowOf);
    row.began = since.get(row) || row.began || row.kept;
    takeBack(row);
  }

  document.addEventListener("click", (event) => {
    const button = event.target.closest?.("[data-nudge]");
    if (button) nudge(button.closest("[data-move-url]"), button.dataset.nudge.split(" ").map(Number), event.shiftKey);
  });

  /* A page that is left keeps what was wanted: the last question outlives it. */
  globalThis.addEventListener("pagehide", () => {
    for (const row of rows.values()) {
      const mover = moverOf(row.ident, row.name);
      if (!mover || same(row.want, row.kept) || !(row.timer || row.settle)) continue;
      const asked = row.unheard && same(row.want, row.unheard.at) ? row.unheard.asked : ask(mover, row, row.want, true);
      fetch(mover.dataset.moveUrl, { ...asked, keepalive: true }).catch(() => {});
    }
  });

  /* A finger that drags a row does not scroll the frame. */
  const hold = (event) => { if (drag && event.cancelable) event.preventDefault(); };

  function revive() {
    for (const frame of document.querySelectorAll("[data-shell] .picture-frame")) {
      frame.addEventListener("touchmove", hold, { passive: false });
    }
    for (const part of document.querySelectorAll("[data-nudges][hidden]")) part.hidden = false;
  }
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", revive);
  else revive();
  document.addEventListener("htmx:after:swap", revive);
})();
