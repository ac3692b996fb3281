"use strict";
/* The shell laid flat, taken in hand: a tap or a cross writes a place into a form, a finding or a
   line of the hole list shows its place, two sizes. Without this script links and forms do. */

globalThis.shellFlat = (() => {
  const SVG = "http://www.w3.org/2000/svg";
  const INCH = 25.4;

  const shells = () => [...document.querySelectorAll("[data-shell]")];
  const shellOf = (node) => node.closest("[data-shell]");
  const shellNamed = (ident) => shells().find((shell) => shell.dataset.shell === ident);
  const frameOf = (shell) => shell.querySelector(".picture-frame");
  const svgOf = (shell) => shell.querySelector("svg.shell-flat");

  /* What the drawing that stands there now says of itself. */
  function factsOf(shell) {
    const data = shell.querySelector(".shell-drawing").dataset;
    const steps = data.steps.split(" ").map(Number);
    return {
      around: Number(data.aroundMm), tape: Number(data.tapeMm), depth: Number(data.depthMm),
      units: data.units, step: steps[0], far: steps[1], drawn: JSON.parse(data.drawn),
    };
  }

  /* No finer than a rule: half a millimetre, or a thirty-second of an inch. */
  const grain = (units) => (units === "in" ? INCH / 32 : 0.5);
  const rounded = (mm, units) => Math.round(mm / grain(units)) * grain(units);

  function say(mm, units) {
    if (units !== "in") return `${Math.round(mm * 2) / 2 || 0} mm`;
    const parts = Math.round((Math.abs(mm) / INCH) * 32);
    const whole = Math.floor(parts / 32);
    let top = parts % 32;
    let low = 32;
    while (top && top % 2 === 0) { top /= 2; low /= 2; }
    const shown = [whole || !top ? `${whole}` : "", top ? `${top}/${low}` : ""].filter(Boolean).join(" ");
    return `${mm < 0 && parts ? "-" : ""}${shown} in`;
  }

  /* A length as typed, or NaN: enough for the size beside a near side. */
  function typed(text, units) {
    const found = /^\s*(\d+(?:[.,]\d+)?)?\s*(?:(\d+)\s*\/\s*(\d+))?\s*(mm|cm|in|inch|inches|")?\s*$/.exec(text || "");
    if (!found || (!found[1] && !found[2])) return NaN;
    const value = Number((found[1] || "0").replace(",", ".")) + (found[2] ? found[2] / found[3] : 0);
    const unit = found[4] || units;
    return value * (unit === "mm" ? 1 : unit === "cm" ? 10 : INCH);
  }

  function tell(shell, words, troubled = false) {
    const line = shell.querySelector("[data-shell-says]");
    line.textContent = words;
    line.classList.toggle("troubled", troubled);
  }

  function send(name, detail) {
    document.dispatchEvent(new CustomEvent(name, { detail }));
  }

  function drawn(kind, attributes, parent) {
    const node = document.createElementNS(SVG, kind);
    for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
    parent.append(node);
    return node;
  }

  /* --- placing a hole ------------------------------------------------------------------------ */

  const crosses = new WeakMap();

  function pointAt(svg, x, y) {
    const at = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM().inverse());
    return [at.x, at.y];
  }

  function showCross(shell) {
    const svg = svgOf(shell);
    svg.querySelector(".cross")?.remove();
    const at = crosses.get(shell);
    if (!at) return;
    const arm = svg.viewBox.baseVal.width / 60;
    const group = drawn("g", { class: "cross", "aria-hidden": "true" }, svg);
    drawn("path", { class: "p", d: `M${at.x - arm} ${at.y}h${2 * arm}M${at.x} ${at.y - arm}v${2 * arm}` }, group);
    drawn("circle", { class: "p", cx: at.x, cy: at.y, r: arm / 3 }, group);
  }

  function wordsAt(at, facts) {
    const along = (at.x / facts.around) * facts.tape;
    return `${say(along, facts.units)} along, ${say(at.y, facts.units)} down`;
  }

  function onShell(x, y, facts) {
    const along = ((x % facts.around) + facts.around) % facts.around;
    return { x: rounded(along, facts.units), y: rounded(Math.min(Math.max(y, 0), facts.depth), facts.units) };
  }

  function write(field, text) {
    if (!field) return;
    field.value = text;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }

  function fill(shell) {
    const at = crosses.get(shell);
    const form = document.querySelector(shell.dataset.placeInto);
    if (!at || !form) return;
    const facts = factsOf(shell);
    const along = (at.x / facts.around) * facts.tape;
    write(form.querySelector("[data-place='along']"), say(along, facts.units));
    write(form.querySelector("[data-place='down']"), say(at.y, facts.units));
    const near = form.querySelector("[data-place='near']");
    let more = "";
    if (near) {
      const from = form.querySelector(`[name="${near.dataset.edgeFrom}"]`)?.value === "resonant";
      const size = typed(form.querySelector(`[name="${near.dataset.sizeFrom}"]`)?.value, facts.units);
      const middle = from ? facts.depth - at.y : at.y;
      write(near, say(Math.max(middle - (size || 0) / 2, 0), facts.units));
      if (!size) more = " Its near side is written as if it had no size: write the size, then tap again.";
    }
    tell(shell, `Written down: ${wordsAt(at, facts)}.${more}`);
    send("shell:placed", { ident: shell.dataset.shell, along_mm: along, down_mm: at.y });
  }

  function tap(shell, where) {
    const svg = svgOf(shell);
    const facts = factsOf(shell);
    const [x, y] = pointAt(svg, ...where);
    if (y < -1 || y > facts.depth + 1) return;
    crosses.set(shell, onShell(x, y, facts));
    showCross(shell);
    fill(shell);
  }

  function nudgeCross(shell, event) {
    const facts = factsOf(shell);
    const way = WAYS[event.key];
    if (way) {
      const step = event.shiftKey ? facts.far : facts.step;
      const at = crosses.get(shell) || middleInView(shell, facts);
      const moved = crosses.has(shell) ? [at.x + way[0] * step, at.y + way[1] * step] : [at.x, at.y];
      crosses.set(shell, onShell(...moved, facts));
      showCross(shell);
      svgOf(shell).querySelector(".cross").scrollIntoView({ block: "nearest", inline: "nearest" });
      tell(shell, wordsAt(crosses.get(shell), facts));
    } else if (event.key === "Enter" && crosses.has(shell)) {
      fill(shell);
    } else if (event.key === "Escape" && crosses.has(shell)) {
      crosses.delete(shell);
      showCross(shell);
      tell(shell, "The cross is taken away.");
    } else {
      return;
    }
    event.preventDefault();
  }

  function middleInView(shell, facts) {
    const box = frameOf(shell).getBoundingClientRect();
    const [x] = pointAt(svgOf(shell), box.left + box.width / 2, box.top);
    return onShell(x, facts.depth / 2, facts);
  }

  const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

  /* --- choosing a hole, a line, a finding ---------------------------------------------------- */

  const picked = new Map();
  const shown = new Map();

  function pick(shell, number, { scroll = false } = {}) {
    picked.set(shell.dataset.shell, number);
    markPicked(shell);
    const hole = svgOf(shell).querySelector(`[data-hole="${number}"]`);
    if (!hole) return;
    if (scroll) hole.scrollIntoView({ block: "center", inline: "center" });
    tell(shell, `${hole.getAttribute("aria-label")}. ${hole.querySelector("title")?.textContent || ""}`);
    send("shell:hole", { ident: shell.dataset.shell, hole: number });
  }

  function markPicked(shell) {
    const ident = shell.dataset.shell;
    const number = picked.get(ident);
    for (const hole of svgOf(shell).querySelectorAll(".hole")) {
      hole.classList.toggle("picked", number !== undefined && (hole.dataset.hole || hole.dataset.again) === number);
    }
    for (const line of document.querySelectorAll(`[id^="${CSS.escape(ident)}-line-"]`)) {
      line.classList.toggle("picked", line.dataset.holeLine === number);
    }
  }

  function showPlace(link) {
    const place = document.getElementById(decodeURIComponent(link.hash.slice(1)));
    if (!place?.classList.contains("place")) return false;
    const shell = shellOf(place);
    shown.set(shell.dataset.shell, place.id);
    markShown(shell);
    place.scrollIntoView({ block: "center", inline: "center" });
    const holes = (place.dataset.holes || "").split(" ").filter(Boolean);
    const what = holes.length ? `${holes.length > 1 ? "Holes" : "Hole"} ${holes.join(", ")}` : "The place";
    tell(shell, `${what} ${holes.length > 1 ? "are" : "is"} ringed on the drawing.`);
    return true;
  }

  function markShown(shell) {
    for (const place of svgOf(shell).querySelectorAll(".place")) {
      place.classList.toggle("shown", place.id === shown.get(shell.dataset.shell));
    }
  }

  /* One hole of a drawing is in the order of tabs; arrow keys go from hole to hole along. */
  function nextHole(hole, event) {
    const middle = (node) => node.querySelector(".hit").cx.baseVal.value;
    const line = [...hole.ownerSVGElement.querySelectorAll("[data-hole]")].sort((a, b) => middle(a) - middle(b));
    const at = line.indexOf(hole);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: line.length - 1 }[event.key];
    if (to === undefined || !line[to]) return;
    hole.setAttribute("tabindex", "-1");
    line[to].setAttribute("tabindex", "0");
    line[to].focus();
    event.preventDefault();
  }

  /* --- two sizes ----------------------------------------------------------------------------- */

  function resize(shell, size) {
    const frame = frameOf(shell);
    const share = (frame.scrollLeft + frame.clientWidth / 2) / frame.scrollWidth;
    shell.dataset.size = size;
    frame.scrollLeft = share * frame.scrollWidth - frame.clientWidth / 2;
    for (const button of shell.querySelectorAll("[data-shell-size]")) {
      button.setAttribute("aria-pressed", String(button.dataset.shellSize === size));
    }
  }

  /* --- events -------------------------------------------------------------------------------- */

  document.addEventListener("click", (event) => {
    const target = event.target;
    const link = target.closest("a.to-place, a.to-hole");
    if (link?.classList.contains("to-place") && showPlace(link)) { event.preventDefault(); return; }
    if (link?.classList.contains("to-hole")) {
      const hole = document.getElementById(decodeURIComponent(link.hash.slice(1)));
      if (hole) { pick(shellOf(hole), hole.dataset.hole, { scroll: true }); event.preventDefault(); }
      return;
    }
    const shell = shellOf(target);
    if (!shell) return;
    const size = target.closest("[data-shell-size]");
    if (size) { resize(shell, size.dataset.shellSize); return; }
    if (!target.closest("svg.shell-flat") || shell.dataset.dragged) return;
    const where = down || [event.clientX, event.clientY];
    const hole = document.elementFromPoint(...where)?.closest(".hole");
    if (hole) pick(shell, hole.dataset.hole || hole.dataset.again);
    else if (shell.dataset.placeInto) tap(shell, where);
  });

  /* Browsers move the click of a finger to what can be focused near by. Where a place is meant,
     the point counts at which the finger came down. */
  let down = null;
  document.addEventListener("pointerdown", (event) => { down = [event.clientX, event.clientY]; }, true);

  document.addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const cross = event.target.closest("[data-shell-cross]");
    if (cross) { nudgeCross(shellOf(cross), event); return; }
    const hole = event.target.closest("[data-hole]");
    if (!hole) return;
    if (event.key === "Enter" || event.key === " ") { pick(shellOf(hole), hole.dataset.hole); event.preventDefault(); }
    else nextHole(hole, event);
  });

  /* A button before its cross is there tells where it would begin. */
  document.addEventListener("click", (event) => {
    const cross = event.target.closest("[data-shell-cross]");
    if (!cross || crosses.has(shellOf(cross))) return;
    const shell = shellOf(cross);
    crosses.set(shell, middleInView(shell, factsOf(shell)));
    showCross(shell);
    tell(shell, wordsAt(crosses.get(shell), factsOf(shell)));
  });

  function revive(shell) {
    for (const button of shell.querySelectorAll("button[hidden]")) button.hidden = false;
    if (!shell.dataset.size) resize(shell, matchMedia("(min-width: 62rem)").matches ? "whole" : "close");
    refresh(shell);
  }

  /* Whatever was chosen is marked again on a drawing that has just come. */
  function refresh(shell) {
    showCross(shell);
    markPicked(shell);
    markShown(shell);
  }

  const reviveAll = () => shells().forEach(revive);
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", reviveAll);
  else reviveAll();
  document.addEventListener("htmx:after:swap", reviveAll);

  return { shellNamed, shellOf, frameOf, svgOf, factsOf, rounded, say, tell, send, drawn, refresh, WAYS };
})();
