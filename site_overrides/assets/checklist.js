/* The checklist of one toy: ticks, readings, holds and the record, kept in this browser and nowhere else.
 *
 * Without this script every box can still be ticked and every field written; only nothing is kept or judged.
 * Everything is keyed by the step's own id, never by its text or its place. data-revision changes when what a step asks
 * for changes: an older tick is then not carried over, and says so. Text from pages and files only ever becomes text.
 *
 * Kept as JSON under guide/<site>/<build>/<toy>:
 *   format 1; steps: id -> {revision, on}; readings: id -> {value, revision, on}; opened: hold -> date; by, date, meter, notes
 */
(() => {
  "use strict";

  const FORMAT = 1;
  const ID = /^[a-z0-9][a-z0-9._-]*$/;
  const ALL = (selector, within = document) => Array.from(within.querySelectorAll(selector));

  function today() {
    const now = new Date();
    const two = (part) => String(part).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  }

  function make(tag, className, text) {
    const element = document.createElement(tag);
    if (className) element.className = className;
    if (text) element.textContent = text;
    return element;
  }

  const LATER = ["after-play", "yearly"];
  const empty = () => ({ format: FORMAT, steps: {}, readings: {}, opened: {}, by: "", date: "", meter: "", notes: "" });

  /* ---- what the browser keeps ---- */
  /* What was kept, each part of the shape it must have: a store that something else wrote into must not stop the page. */
  const isMap = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  function whole(stored) {
    const record = empty();
    if (!isMap(stored)) return record;
    for (const [name, value] of Object.entries(record)) {
      if (isMap(value) && isMap(stored[name])) {
        record[name] = Object.fromEntries(Object.entries(stored[name]).filter(([, entry]) => isMap(entry) || typeof entry === "string"));
      } else if (typeof value === typeof stored[name] && !isMap(value)) record[name] = stored[name];
    }
    return record;
  }

  function keeper(key) {
    const read = (name) => {
      try { return JSON.parse(localStorage.getItem(name)); } catch (problem) { return null; }
    };
    const write = (name, value) => {
      try { localStorage.setItem(name, JSON.stringify(value)); return true; } catch (problem) { return false; }
    };
    return {
      load: () => whole(read(key)),
      save: (record) => write(key, record),
      works: () => write(`${key}/try`, 1) && (localStorage.removeItem(`${key}/try`), true),
      key,
    };
  }

  /* ---- a reading, judged in words; comma and point are both the decimal sign ---- */
  function numberIn(text) {
    const plain = text.trim().replace(/\u2212/g, "-").replace(",", ".");
    if (/^(o\.?l\.?|0\.?l\.?|1\.|\u221e|open)$/i.test(plain)) return Infinity; /* what meters show when there is no path */
    return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? parseFloat(plain) : NaN;
  }
  function verdict(field) {
    if (!field.value.trim()) return { state: "", words: "" };
    const value = numberIn(field.value);
    const { low, high, unit, ifnot } = field.dataset;
    if (Number.isNaN(value)) return { state: "out", words: "Write one number, such as 11.6 or 11,6; OL when the meter shows no path." };
    const then = ifnot ? ` ${ifnot}` : "";
    if (low !== "" && value < parseFloat(low.replace("\u2212", "-"))) return { state: "out", words: `Below ${low} ${unit}: stop.${then}` };
    if (high !== "" && value > parseFloat(high.replace("\u2212", "-"))) return { state: "out", words: `Above ${high} ${unit}: stop.${then}` };
    return { state: "in", words: low === "" && high === "" ? "" : "As expected." };
  }

  function start() {
    const guide = document.querySelector("[data-guide]");
    if (!guide || guide.dataset.ready) return;
    guide.dataset.ready = "yes";

    const site = document.querySelector('meta[name="guide-site"]')?.content || "";
    const [build, toy] = guide.dataset.guide.split("/");
    const kept = keeper(`guide/${site}/${build}/${toy}`);
    const whoKey = `guide/${site}/who`; /* asked once, offered on the next page */
    const works = kept.works();
    let record = kept.load();

    const boxes = ALL("input[data-step]");
    const fields = ALL("input[data-reading]");
    const notes = ALL("[data-keep]");
    const lists = ALL("ol.gg-steps");
    const said = guide.querySelector("[data-said]");
    const stepOf = (element) => element.closest(".step");
    const boxOf = (field) => stepOf(field).querySelector("input[data-step]");

    /* ---- the bar with the next step, in reach of either thumb ---- */
    const bar = make("aside", "gg-next");
    bar.setAttribute("aria-label", "Next step");
    const go = make("a", "gg-next__all");
    const meter = make("span", "gg-next__meter");
    const what = make("b", "gg-next__what");
    const count = make("span", "gg-next__count");
    go.append(count, what, make("span", "gg-next__go", "Go there"));
    bar.append(meter, go);
    document.body.append(bar);
    document.documentElement.classList.add("has-next");
    go.addEventListener("click", () => {
      const target = document.getElementById(decodeURIComponent(go.hash.slice(1)))?.querySelector("input:not(:disabled)");
      setTimeout(() => target?.focus({ preventScroll: true }), 0);
    });

    const NOT_KEPT = "Not saved: this browser keeps nothing for this page. Save a file, print, or write on paper.";
    function say(text) { said.textContent = text; }
    function keep() { say(kept.save(record) ? `Saved in this browser, ${today()}.` : NOT_KEPT); }

    /* ---- one step: tick, reading, and what is said about a change ---- */
    function showStep(box) {
      const entry = record.steps[box.dataset.step];
      const changed = Boolean(entry) && entry.revision !== box.dataset.revision;
      box.checked = Boolean(entry) && !changed;
      const reading = record.readings[box.dataset.step];
      const old = reading && reading.revision !== box.dataset.revision ? reading : null;
      const words = [];
      if (changed) words.push(`Changed since you ticked it on ${entry.on}. Read it again.`);
      if (old) words.push(`On ${old.on} you wrote ${old.value} ${old.unit || ""}`.trim() + ".");
      let note = stepOf(box).querySelector(".step__changed");
      if (!note && words.length) {
        note = make("p", "step__changed");
        stepOf(box).querySelector(".step__tick").after(note);
      }
      if (note) { note.textContent = words.join(" "); note.hidden = !words.length; }
    }
    function showReading(field) {
      const entry = record.readings[field.dataset.reading];
      field.value = entry && entry.revision === boxOf(field).dataset.revision ? entry.value : "";
      showVerdict(field);
    }
    function showVerdict(field) {
      const { state, words } = verdict(field);
      const row = field.closest(".step__reading");
      row.classList.toggle("is-in", state === "in");
      row.classList.toggle("is-out", state === "out");
      field.setAttribute("aria-invalid", String(state === "out"));
      document.getElementById(`${field.id}-says`).textContent = words;
    }

    /* ---- holds: what comes after one stays closed until all of it is confirmed, or somebody answers for it ---- */
    const outside = (section) => ALL("input[data-reading]", section).some((field) => verdict(field).state === "out");
    const passed = (hold) => ALL("input[data-step]", hold).every((box) => box.checked) && !outside(hold);
    const nameOf = (hold) => hold.querySelector("h3").textContent;

    function gate(list, hold) {
      const id = `gate-${list.id}`;
      let box = document.getElementById(id);
      if (!hold) { box?.remove(); return; }
      if (!box) {
        box = make("div", "gg-gate");
        box.id = id;
        const open = make("button", "gg-button", "I take responsibility: open these steps");
        open.type = "button";
        open.addEventListener("click", () => {
          record.opened[box.dataset.closedBy] = today();
          keep();
          show();
          ALL("input:not(:disabled)", list)[0]?.focus();
        });
        box.append(make("p"), open);
        list.before(box);
      }
      box.dataset.closedBy = hold.dataset.hold;
      const link = make("a", "", nameOf(hold));
      link.href = `#${hold.dataset.hold}-name`;
      const why = outside(hold) ? " A reading there is outside what is expected." : " Confirm all of it first.";
      box.querySelector("p").replaceChildren("Closed by ", link, ".", why);
    }
    function showHolds() {
      let closed = null, first = true;
      lists.forEach((list) => {
        /* What is done after weeks of play waits for no hold; and one offer to answer for a hold is enough. */
        const held = LATER.includes(list.dataset.list) ? null : closed;
        list.classList.toggle("is-held", Boolean(held));
        ALL("input", list).forEach((input) => { input.disabled = Boolean(held); });
        gate(list, held);
        const offer = document.querySelector(`#gate-${CSS.escape(list.id)} button`);
        if (offer) { offer.hidden = !first; first = false; }
        const hold = list.closest("[data-hold]");
        if (!hold) return;
        const opened = record.opened[hold.dataset.hold];
        let note = hold.querySelector(".gg-hold__opened");
        if (!note) hold.append(note = make("p", "gg-hold__opened"));
        note.hidden = !opened || passed(hold);
        note.textContent = opened ? `Opened on ${opened} without being confirmed. Whoever opened it answers for it.` : "";
        if (!closed && !opened && !passed(hold)) closed = hold;
      });
    }

    function showProgress() {
      ALL("[data-stage]").forEach((stage) => {
        const steps = ALL("input[data-step]", document.getElementById(`do-${stage.dataset.stage}`));
        stage.querySelector("[data-count]").textContent = `${steps.filter((box) => box.checked).length} of ${steps.length}`;
        stage.querySelector("[data-marks]").replaceChildren(...steps.map((box) => make("i", box.checked ? "is-done" : "")));
      });
      const done = boxes.filter((box) => box.checked).length;
      /* A hold that is passed answers for what stands before it: a stage that was skipped there is not asked for again. */
      const waiting = boxes.filter((box) => !box.checked && !box.disabled);
      const lastHold = ALL("[data-hold]").filter(passed).pop();
      const next = waiting.find((box) => !lastHold || lastHold.compareDocumentPosition(box) & Node.DOCUMENT_POSITION_FOLLOWING) || waiting[0];
      const stuck = !next && ALL("[data-hold]").find((hold) => outside(hold) && !record.opened[hold.dataset.hold]);
      meter.style.setProperty("--done", String(done / boxes.length));
      count.textContent = `${done} of ${boxes.length}${works ? "" : ", not saved"}`;
      bar.classList.toggle("is-all", !next && !stuck);
      if (next) {
        what.textContent = `${next.dataset.no}\u2002${next.dataset.short}`;
        go.href = `#${stepOf(next).id}`;
      } else if (stuck) {
        what.textContent = `${nameOf(stuck)}: a reading is outside`;
        go.href = `#${stuck.dataset.hold}-name`;
      } else {
        what.textContent = done === boxes.length ? "All ticked. Save the record." : "Save the record";
        go.href = "#record";
      }
    }

    function show() { showHolds(); showProgress(); }
    function showAll() {
      boxes.forEach(showStep);
      fields.forEach(showReading);
      let who = {};
      try { who = JSON.parse(localStorage.getItem(whoKey)) || {}; } catch (problem) { /* nothing kept */ }
      notes.forEach((note) => { note.value = record[note.dataset.keep] || who[note.dataset.keep] || ""; });
      show();
    }

    /* ---- what the reader does ---- */
    boxes.forEach((box) => box.addEventListener("change", () => {
      if (box.checked) record.steps[box.dataset.step] = { revision: box.dataset.revision, on: today() };
      else delete record.steps[box.dataset.step];
      keep();
      showStep(box);
      show();
    }));
    fields.forEach((field) => {
      field.addEventListener("change", () => {
        const id = field.dataset.reading;
        if (field.value.trim()) {
          record.readings[id] = { value: field.value.trim(), unit: field.dataset.unit, revision: boxOf(field).dataset.revision, on: today() };
        } else delete record.readings[id];
        keep();
        showVerdict(field);
        showStep(boxOf(field));
        show();
      });
    });
    notes.forEach((note) => note.addEventListener("change", () => {
      record[note.dataset.keep] = note.value;
      keep();
      try { localStorage.setItem(whoKey, JSON.stringify({ by: record.by, meter: record.meter })); } catch (problem) { /* said by keep */ }
    }));
    window.addEventListener("storage", (event) => {
      if (event.key !== kept.key) return;
      record = kept.load();
      showAll();
    });

    /* ---- the record as a file ---- */
    function asFile() {
      const limit = (text) => (text === "" ? null : numberIn(text));
      return {
        guide_gen_record: FORMAT, site, build, toy, name: guide.dataset.name, guide_revision: guide.dataset.revision,
        saved: new Date().toISOString(), by: record.by, date: record.date, meter: record.meter, notes: record.notes,
        steps: boxes.map((box) => ({
          id: box.dataset.step, stage: box.closest("ol").dataset.list, text: stepOf(box).querySelector(".step__text").textContent,
          done: box.checked, on: record.steps[box.dataset.step]?.on ?? null,
          revision: record.steps[box.dataset.step]?.revision ?? box.dataset.revision,
        })),
        readings: fields.filter((field) => record.readings[field.dataset.reading]).map((field) => {
          const entry = record.readings[field.dataset.reading];
          const number = numberIn(entry.value);
          return {
            step: field.dataset.reading, what: field.dataset.what, written: entry.value, value: Number.isNaN(number) ? null : number,
            unit: field.dataset.unit, low: limit(field.dataset.low), high: limit(field.dataset.high),
            as_expected: verdict(field).state === "in", on: entry.on, revision: entry.revision,
          };
        }),
        holds: ALL("[data-hold]").map((hold) => ({
          id: hold.dataset.hold, confirmed: passed(hold), opened: record.opened[hold.dataset.hold] ?? null,
        })),
      };
    }
    function saveFile() {
      const link = make("a");
      link.href = URL.createObjectURL(new Blob([`${JSON.stringify(asFile(), null, 2)}\n`], { type: "application/json" }));
      link.download = `${build}-${toy}-record.json`;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 1000);
      say(`File ${link.download} written.`);
    }

    /* What a file says, taken over piece by piece: only text of known shape, under ids that a page can have. */
    function fromFile(text) {
      const file = JSON.parse(text);
      if (file?.guide_gen_record !== FORMAT) throw new Error("This is no record that this page can read.");
      if (file.build !== build || file.toy !== toy) throw new Error(`This file belongs to another list: ${String(file.name ?? "no name").slice(0, 80)}.`);
      const line = (value, longest = 200) => (typeof value === "string" ? value.slice(0, longest) : "");
      const entries = (list) => (Array.isArray(list) ? list : []);
      const loaded = empty();
      entries(file.steps).filter((step) => step?.done === true || step?.on).forEach((step) => {
        if (typeof step.id === "string" && ID.test(step.id)) loaded.steps[step.id] = { revision: line(step.revision), on: line(step.on) };
      });
      entries(file.readings).forEach((reading) => {
        if (typeof reading?.step === "string" && ID.test(reading.step)) {
          loaded.readings[reading.step] = { value: line(reading.written), unit: line(reading.unit, 20), revision: line(reading.revision), on: line(reading.on) };
        }
      });
      entries(file.holds).forEach((hold) => {
        if (typeof hold?.id === "string" && ID.test(hold.id) && hold.opened) loaded.opened[hold.id] = line(hold.opened);
      });
      ["by", "date", "meter"].forEach((name) => { loaded[name] = line(file[name]); });
      loaded.notes = line(file.notes, 5000);
      return loaded;
    }
    async function loadFile(input) {
      const file = input.files[0];
      input.value = "";
      if (!file) return;
      try {
        const loaded = fromFile(await file.text());
        const written = Object.keys(record.steps).length + Object.keys(record.readings).length;
        if (written && !window.confirm("Put the file in place of what is ticked and written here?")) return;
        record = loaded;
        const saved = kept.save(record);
        showAll();
        say(saved ? "File loaded and saved in this browser." : NOT_KEPT);
      } catch (problem) {
        say(problem instanceof SyntaxError ? "This file cannot be read: it is no record." : problem.message);
      }
    }

    guide.querySelector("[data-buttons]").hidden = false;
    guide.querySelector("[data-save-file]").addEventListener("click", saveFile);
    guide.querySelector("[data-load-file]").addEventListener("change", (event) => loadFile(event.target));
    guide.querySelector("[data-print]").addEventListener("click", () => window.print());
    guide.querySelector("[data-clear]").addEventListener("click", () => {
      if (!window.confirm("Remove all ticks and readings of this toy from this browser?")) return;
      record = empty();
      showAll();
      keep();
    });

    showAll();
    say(works ? "Ticks and readings are saved in this browser." : NOT_KEPT);
  }

  if (window.document$?.subscribe) window.document$.subscribe(start);
  else if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
})();
