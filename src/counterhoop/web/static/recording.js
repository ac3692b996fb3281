"use strict";
/* Record taps in the page and put them into the form as a file. Without this script, or where a
   browser does not let the page listen, the file of any recorder is chosen by hand. */
function prepare(place) {
  const listens = globalThis.isSecureContext && navigator.mediaDevices?.getUserMedia && globalThis.MediaRecorder;
  if (!listens) return;
  const part = (name) => place.querySelector(`[data-part="${name}"]`);
  const [begin, end, level, says, time] = ["begin", "end", "level", "says", "time"].map(part);
  const file = document.getElementById(place.dataset.recorder);
  part("cannot").hidden = true;
  part("can").hidden = false;

  /* Nothing may be done to the sound: what makes speech clear spoils a pitch. */
  const AS_IT_IS = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
  const KINDS = ["audio/webm;codecs=opus", "audio/mp4", "audio/ogg;codecs=opus"];
  const FASTEST = 256_000;
  const TOO_SOFT_DB = -34;
  const TOO_LOUD_DB = -1;
  const FAINTEST_DB = -60;
  const HELD_MS = 1500;
  const SAID_MS = 900;
  let going = null;

  const wordsFor = (db) => (db > TOO_LOUD_DB ? "too loud: tap softer, or move the phone away"
    : db > TOO_SOFT_DB ? "good" : db > FAINTEST_DB ? "too soft: tap harder, or move the phone nearer" : "no sound");

  function say(words) { if (says.textContent !== words) says.textContent = words; }

  function watch(stream) {
    const context = new AudioContext();
    const hears = context.createAnalyser();
    hears.fftSize = 2048;
    context.createMediaStreamSource(stream).connect(hears);
    const samples = new Float32Array(hears.fftSize);
    const began = performance.now();
    let [highest, at, said] = [0, began, 0];
    const timer = setInterval(() => {
      hears.getFloatTimeDomainData(samples);
      const peak = samples.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
      const now = performance.now();
      if (peak >= highest || now - at > HELD_MS) [highest, at] = [peak, now];
      const db = 20 * Math.log10(Math.max(highest, 1e-6));
      level.value = Math.min(1, Math.max(0, (db - FAINTEST_DB) / -FAINTEST_DB));
      time.textContent = `${Math.floor((now - began) / 1000)} s`;
      if (now - said > SAID_MS) {
        said = now;
        level.setAttribute("aria-valuetext", wordsFor(db));
        say(`Level: ${wordsFor(db)}.`);
      }
    }, 40);
    return () => { clearInterval(timer); context.close(); };
  }

  function nameFor(type) {
    const ending = type.includes("webm") ? "webm" : type.includes("ogg") ? "ogg" : "m4a";
    const now = new Date();
    const two = (number) => String(number).padStart(2, "0");
    return `taps ${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())} ${two(now.getHours())}.${two(now.getMinutes())}.${ending}`;
  }

  async function start() {
    begin.disabled = true;
    let stream = null;
    try {
      stream = await navigator.mediaDevices.getUserMedia({ audio: AS_IT_IS });
    } catch (fault) {
      begin.disabled = false;
      say(fault.name === "NotFoundError" ? "No microphone was found: choose a file instead."
        : "The browser did not let the page listen: allow the microphone, or choose a file instead.");
      return;
    }
    const mimeType = KINDS.find((kind) => MediaRecorder.isTypeSupported(kind));
    const recorder = new MediaRecorder(stream, { ...(mimeType ? { mimeType } : {}), audioBitsPerSecond: FASTEST });
    const pieces = [];
    const unwatch = watch(stream);
    recorder.addEventListener("dataavailable", (event) => { if (event.data.size) pieces.push(event.data); });
    recorder.addEventListener("stop", () => {
      unwatch();
      for (const track of stream.getTracks()) track.stop();
      const type = recorder.mimeType || "audio/webm";
      const into = new DataTransfer();
      into.items.add(new File(pieces, nameFor(type), { type: type.split(";")[0] }));
      file.files = into.files;
      file.dispatchEvent(new Event("change", { bubbles: true }));
      [begin.hidden, begin.disabled, end.hidden, level.hidden] = [false, false, true, true];
      begin.textContent = "Record anew";
      say(`Recorded ${time.textContent}, and chosen below. Press the button under the form.`);
      time.textContent = "";
      begin.focus();
    });
    // In pieces, so that little is lost when a phone closes the page.
    recorder.start(1000);
    going = recorder;
    [begin.hidden, end.hidden, level.hidden] = [true, false, false];
    end.focus();
  }

  begin.addEventListener("click", start);
  end.addEventListener("click", () => { if (going?.state === "recording") going.stop(); });
  addEventListener("pagehide", () => { if (going?.state === "recording") going.stop(); });
}

function prepareAll() {
  for (const place of document.querySelectorAll("[data-recorder]")) prepare(place);
}

prepareAll();
/* An answer that says what was refused brings its own sheets. */
document.addEventListener("counterhoop:sheets", prepareAll);
