"use strict";
/* Whatever is typed is kept: in this window until the program says that it has it, and sent again
   after a connection was lost. Without this script a form is kept when its button is pressed. */

(() => {
  const FORMS = "form[data-keep]";
  const FRONT = "counterhoop kept ";
  const SENT = "counterhoop sent ";
  const LONGEST_WAIT_MS = 15000;
  const seen = new WeakSet();
  const waiting = new Map();
  const sent = new WeakMap();
  const behind = new Map();
  const following = new Map();
  const newMark = () => [...crypto.getRandomValues(new Uint8Array(16))].map((one) => one.toString(16).padStart(2, "0")).join("");

  const keyOf = (form, front = FRONT) => `${front}${location.pathname} ${form.id}`;
  const typed = (form) => JSON.stringify([...new FormData(form)]);
  const answerOf = (form) => document.getElementById(form.id.replace(/-form$/, "-answer"));

  function remember(form) {
    try { sessionStorage.setItem(keyOf(form), typed(form)); } catch { /* a full or closed store */ }
  }

  function forget(form) {
    try { sessionStorage.removeItem(keyOf(form)); } catch { /* a closed store */ }
    heard(form);
  }

  /* What was sent and has had no answer yet, a reload included: {action, body, mark}. */
  function unheard(form) {
    try { return sent.get(form) || JSON.parse(sessionStorage.getItem(keyOf(form, SENT))); } catch { return null; }
  }

  function listenFor(form, what) {
    sent.set(form, what);
    try { sessionStorage.setItem(keyOf(form, SENT), JSON.stringify(what)); } catch { /* a full or closed store */ }
  }

  function heard(form) {
    sent.delete(form);
    try { sessionStorage.removeItem(keyOf(form, SENT)); } catch { /* a closed store */ }
  }

  function tell(form, words) {
    const place = answerOf(form);
    if (!place) return;
    const line = document.createElement("p");
    line.className = "unkept";
    line.textContent = words;
    place.replaceChildren(line);
  }

  /* --- filling in again what a reload took away ---------------------------------------------- */

  function refill(form) {
    if (seen.has(form)) return;
    seen.add(form);
    let kept = null;
    try { kept = JSON.parse(sessionStorage.getItem(keyOf(form))); } catch { /* not ours */ }
    if (!Array.isArray(kept)) { heard(form); return; }
    let changed = false;
    for (const [name, value] of kept) {
      const field = form.elements.namedItem(name);
      if (!(field instanceof Element) || !("value" in field) || field.value === value) continue;
      field.value = value;
      changed = changed || field.type !== "hidden";
    }
    for (const tick of form.querySelectorAll('input[type="checkbox"]')) {
      const was = kept.some(([name, value]) => name === tick.name && value === tick.value);
      changed = changed || tick.checked !== was;
      tick.checked = was;
    }
    if (!changed) { forget(form); return; }
    tell(form, "Filled in again from what this window had kept.");
    form.dispatchEvent(new Event("change", { bubbles: true }));
  }

  function refillAll() {
    for (const form of document.querySelectorAll(FORMS)) refill(form);
    const here = `${FRONT}${location.pathname} `;
    for (const key of Object.keys(sessionStorage)) {
      if (!key.startsWith(here)) continue;
      const id = key.slice(here.length);
      const line = document.getElementById(id.replace(/-form$/, ""));
      // Its form is behind a line that is closed: opening it fetches the form.
      if (!document.getElementById(id) && line instanceof HTMLDetailsElement) line.open = true;
    }
  }

  /* --- sending ------------------------------------------------------------------------------- */

  function again(form) {
    const wait = waiting.get(form);
    if (!wait || !form.isConnected) { waiting.delete(form); return; }
    clearTimeout(wait.timer);
    press(form, wait.button);
  }

  function press(form, button) {
    const there = button?.isConnected ? button : null;
    if (there || !form.matches('[hx-trigger*="change"]')) form.requestSubmit(there);
    else form.dispatchEvent(new Event("change", { bubbles: true }));
  }

  function later(form, button) {
    const old = waiting.get(form);
    clearTimeout(old?.timer);
    const ms = Math.min(old ? old.ms * 2 : 1000, LONGEST_WAIT_MS);
    const timer = setTimeout(() => again(form), ms);
    waiting.set(form, { ms, timer, button: button || old?.button || null });
  }

  const formOf = (event) => (event.target instanceof Element && event.target.matches(FORMS) ? event.target : null);

  for (const kind of ["input", "change"]) {
    document.addEventListener(kind, (event) => {
      const form = event.target instanceof Element ? event.target.closest(FORMS) : null;
      if (form && event.isTrusted) remember(form);
      else if (form && event.target !== form) remember(form);
    });
  }

  /* A number without its unit: the person's own is one press away. */
  document.addEventListener("click", (event) => {
    const offer = event.target instanceof Element ? event.target.closest("[data-writes]") : null;
    const field = offer && document.getElementById(offer.dataset.into);
    if (!field) return;
    field.value = offer.dataset.writes;
    field.dispatchEvent(new Event("change", { bubbles: true }));
    field.focus();
  });

  document.addEventListener("htmx:before:request", (event) => {
    const form = formOf(event);
    if (!form) return;
    const { request } = event.detail.ctx;
    // One that stood in line behind another is sent as the form is now, not as it was then.
    const body = String(new URLSearchParams([...new FormData(form, request.submitter)]));
    const before = unheard(form);
    // What had no answer goes first, as it was: by its mark it is written once and no more. What
    // was typed since rests on its answer, and follows.
    const again = before?.action === request.action;
    const now = again ? before : { action: request.action, body, mark: newMark() };
    behind.delete(form);
    if (now.body !== body) behind.set(form, request.submitter);
    listenFor(form, now);
    request.body = new URLSearchParams(now.body);
    form.dataset.sent = behind.has(form) ? "" : typed(form);
    request.headers["X-Sent-Once"] = now.mark;
  });

  document.addEventListener("htmx:after:request", (event) => {
    const form = formOf(event);
    if (!form) return;
    const { status } = event.detail.ctx.response;
    heard(form);
    clearTimeout(waiting.get(form)?.timer);
    waiting.delete(form);
    const told = status < 400 || status === 409;
    if (behind.has(form)) {
      if (status !== 409) following.set(form, behind.get(form));
      behind.delete(form);
    } else if (told && (form.dataset.sent === typed(form) || event.detail.ctx.request.submitter)) forget(form);
  });

  document.addEventListener("htmx:finally:request", () => {
    for (const [form, button] of following) {
      following.delete(form);
      if (form.isConnected) press(form, button);
    }
  });

  document.addEventListener("htmx:error", (event) => {
    const form = formOf(event);
    if (!form || !event.detail.ctx) return;
    remember(form);
    tell(form, "Not saved: no connection. What you typed stays here; it is tried again.");
    later(form, event.detail.ctx.request.submitter);
  });

  addEventListener("online", () => { for (const form of [...waiting.keys()]) again(form); });

  document.addEventListener("htmx:after:swap", () => {
    // Once what is typed has a sheet of its own, a reload must find that sheet.
    const moved = document.querySelector("[data-goes-on]");
    if (moved && moved.dataset.goesOn !== location.pathname + location.search) {
      const form = moved.closest(FORMS);
      const unsent = form && sessionStorage.getItem(keyOf(form)) !== null;
      if (form) forget(form);
      history.replaceState(null, "", moved.dataset.goesOn);
      if (unsent) remember(form);
    }
    for (const form of document.querySelectorAll(FORMS)) refill(form);
    const next = document.querySelector("[data-reach]");
    next?.removeAttribute("data-reach");
    next?.focus();
  });

  if (!globalThis.htmx) { refillAll(); return; }
  // What a person opened while typing is not closed by the answer.
  htmx.config.morphIgnore = [...htmx.config.morphIgnore, "open"];
  // What is filled in again is sent again: only when forms are listened to. That begins in a timer
  // set before this one, and may have begun already where this script came late.
  document.addEventListener("DOMContentLoaded", () => setTimeout(refillAll), { once: true });
})();
