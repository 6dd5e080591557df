// The live workings: reads the fields of a form, asks the functions in formulas.js, which are
// written from the handbook's own Python source, and prints through bench.printed.
// Nothing of the trade is reckoned here. State stands in the address, after the #.
// Each working is a function of bench_kit.answers, in a file of its own beside this one.
(function () {
  "use strict";
  const data = window.bench_data;
  const answers = {};
  const forms = new Map();
  for (const form of document.querySelectorAll("form[data-working]")) {
    forms.set(form.dataset.working, form);
  }
  const NUMBER = data && new RegExp(`^(?:${data.number})$`, "i");

  // Fields

  class Refused extends Error {
    constructor(field, found, accepted, label) {
      super(`${label || field.dataset.label}: found ${found ? `“${found}”` : "nothing"}, accepted: ${accepted}.`);
      this.field = field;
    }
  }

  function read(field) {
    const text = field.value.trim();
    if (!text && field.dataset.blank) return null;
    const value = NUMBER.test(text) ? Number(text.replace(",", ".")) : NaN;
    const { above, low, high, whole, accepted } = field.dataset;
    const outside =
      !Number.isFinite(value) ||
      (above !== undefined && value <= Number(above)) ||
      (low !== undefined && value < Number(low)) ||
      (high !== undefined && value > Number(high)) ||
      (whole && !Number.isInteger(value));
    if (outside) throw new Refused(field, text, accepted);
    return value;
  }

  function inputTables(form) {
    return [...form.querySelectorAll("[data-rows][data-each]")].map((body) => body.dataset.rows);
  }

  function rowFields(form, table) {
    return [...form.querySelectorAll(`[data-rows=${table}] tr:not([hidden]) input`)];
  }

  // Gives [{ id, part }] of a table of materials. A number of nought, or none, leaves its
  // material out.
  function rows(form, table) {
    return rowFields(form, table)
      .map((field) => ({ id: field.dataset.material, part: read(field) }))
      .filter(({ part }) => part);
  }

  // The same, where at least one material must be there.
  function someRows(form, table, chooser) {
    const found = rows(form, table);
    if (found.length) return found;
    const { each } = form.querySelector(`[data-rows=${table}]`).dataset;
    throw new Refused(chooser, "", `a material with ${each.replace(" by mass", "")} above 0`, capital(each));
  }

  function readParts(form) {
    return someRows(form, "parts", form.elements.blend);
  }

  function capital(text) {
    return text[0].toUpperCase() + text.slice(1);
  }

  const known = (id) => data.materials[id] || data.blends[id];

  function addRow(form, table, id, text) {
    const body = form.querySelector(`[data-rows=${table}]`);
    const row = body.firstElementChild.cloneNode(true);
    const field = row.querySelector("input");
    row.hidden = false;
    row.firstElementChild.textContent = name(id);
    field.value = text;
    field.dataset.material = id;
    field.dataset.label = `${name(id)}, ${body.dataset.each}`;
    field.setAttribute("aria-label", field.dataset.label);
    body.append(row);
    return field;
  }

  function setRows(form, table, entries) {
    for (const field of rowFields(form, table)) field.closest("tr").remove();
    for (const [id, text] of entries) if (known(id)) addRow(form, table, id, String(text));
  }

  function blendNamed(parts) {
    const same = ([, blend]) =>
      Object.keys(blend.parts).length === parts.length &&
      parts.every(({ id, part }) => blend.parts[id] === part);
    return (Object.entries(data.blends).find(same) || [""])[0];
  }

  // Printing

  const name = (id) => known(id).name;
  const percent = (share, decimals) => `${bench.printed(100 * share, decimals)} %`;
  const degrees = (celsius) => (data.degrees === "°F" ? bench.fahrenheit(celsius) : celsius);
  const span = (low, high, unit) => `${bench.printed(low, 0)} to ${bench.printed(high, 0)} ${unit}`;
  const warmth = (band) => span(degrees(band[0]), degrees(band[2]), data.degrees);

  // What stays in one line: a number with its unit, a range, and an option of a command, which is
  // never broken after its hyphens. The text stays as it is, so that it can be copied.
  const WHOLE = data && new RegExp(`(${data.in_one_line})`);
  const OPTION = /(?<!\S)(--[\w-]+)/;

  function inOneLine(text, whole = WHOLE) {
    return String(text).split(whole).map((piece, place) => {
      if (place % 2 === 0) return piece;
      const held = document.createElement("span");
      held.className = "unbroken";
      held.textContent = piece;
      return held;
    });
  }

  function put(form, key, text) {
    const place = form.querySelector(`[data-out=${key}]`);
    if (place.textContent !== text) {
      place.replaceChildren(...inOneLine(text, key === "command" ? OPTION : WHOLE));
    }
    const label = form.querySelector(`[data-for=${key}]`);
    if (label) label.hidden = place.hidden = text === "";
  }

  function clear(form) {
    for (const place of form.querySelectorAll("[data-out]")) put(form, place.dataset.out, "");
    for (const body of form.querySelectorAll("[data-rows]:not([data-each])")) body.replaceChildren();
  }

  // Fills a table of the answer; the first cell of a row is its head.
  function fill(form, table, lines) {
    form.querySelector(`[data-rows=${table}]`).replaceChildren(...lines.map(filledRow));
  }

  function filledRow(cells) {
    const row = document.createElement("tr");
    cells.forEach((text, place) => {
      const cell = document.createElement(place ? "td" : "th");
      if (place) cell.className = "right";
      else cell.scope = "row";
      cell.append(...inOneLine(text));
      row.append(cell);
    });
    return row;
  }

  // Words the command line: the blend by its name, else its parts, then the rest.
  function command(form, parts, rest) {
    const blend = form.elements.blend.value;
    const own = parts.map(({ id, part }) => ` --parts ${id}=${part}`).join("");
    put(form, "command", `benchbinder ${form.dataset.working}${blend ? ` ${blend}` : own}${rest}`);
  }

  // State in the address: #mix:blend=…&parts=…;soften:…

  function passing(field) {
    return field.dataset.fills || field.dataset.adds || field.name === "summary";
  }

  function state(form) {
    const kept = new URLSearchParams();
    for (const table of inputTables(form)) {
      kept.set(table, rowFields(form, table).map((field) => `${field.dataset.material}*${field.value.trim()}`).join(" "));
    }
    for (const field of form.elements) {
      if (field.type === "checkbox") {
        if (field.checked !== field.defaultChecked) kept.set(field.name, field.checked ? "yes" : "no");
      } else if (field.name && field.value && !passing(field)) kept.set(field.name, field.value);
    }
    return `${form.dataset.working}:${kept}`;
  }

  const inAddress = new Map();
  const unkept = new Set();
  let timer = 0;

  // Waits for a pause in typing: some browsers refuse an address that changes too often.
  function keepSoon(form) {
    unkept.add(form);
    clearTimeout(timer);
    timer = setTimeout(keep, 200);
  }

  function keep() {
    if (unkept.size === 0) return;
    for (const form of unkept) inAddress.set(form.dataset.working, state(form));
    unkept.clear();
    history.replaceState(null, "", `#${[...inAddress.values()].join(";")}`);
  }

  function restore() {
    for (const piece of location.hash.slice(1).split(";")) {
      const [id, text] = piece.split(/:(.*)/s);
      const form = forms.get(id);
      if (!form || text === undefined) continue;
      inAddress.set(id, piece);
      const kept = new URLSearchParams(text);
      const tables = inputTables(form);
      for (const table of tables) {
        const entries = (kept.get(table) || "").split(" ").filter(Boolean);
        setRows(form, table, entries.map((one) => one.split("*")));
      }
      follow(form);
      for (const [key, value] of kept) {
        const field = form.elements[key];
        if (tables.includes(key) || !field) continue;
        if (field.type === "checkbox") field.checked = value === "yes";
        else field.value = value;
      }
      refresh(form);
    }
  }

  // Keeps the fields that hang on other fields in step with them.
  function follow(form) {
    for (const choice of form.querySelectorAll("select[data-of]")) {
      const ids = rowFields(form, choice.dataset.of).map((field) => field.dataset.material);
      const before = choice.value;
      choice.replaceChildren(...ids.map((id) => new Option(name(id), id, false, id === before)));
    }
    const { way } = form.elements;
    for (const place of way ? form.querySelectorAll("[data-way]") : []) {
      place.hidden = !place.dataset.way.split(" ").includes(way.value);
    }
    for (const choice of form.querySelectorAll("select[data-fills]")) {
      try {
        choice.value = blendNamed(rows(form, choice.dataset.fills));
      } catch (fault) {
        if (!(fault instanceof Refused)) throw fault;
        choice.value = "";
      }
    }
  }

  function refresh(form) {
    follow(form);
    for (const field of form.querySelectorAll("[aria-invalid]")) field.removeAttribute("aria-invalid");
    try {
      answers[form.dataset.working](form);
    } catch (fault) {
      if (!(fault instanceof Refused)) throw fault;
      clear(form);
      put(form, "message", fault.message);
      fault.field.setAttribute("aria-invalid", "true");
    }
  }

  function fillFrom(form, choice) {
    setRows(form, choice.dataset.fills, Object.entries(data.blends[choice.value].parts));
  }

  function addTo(form, choice) {
    const table = choice.dataset.adds;
    const id = choice.value;
    const there = rowFields(form, table).find((each) => each.dataset.material === id);
    (there || addRow(form, table, id, "")).focus();
    choice.value = "";
  }

  function changed(form, field) {
    if (field.dataset.fills && field.value) fillFrom(form, field);
    if (field.dataset.adds && field.value) addTo(form, field);
    refresh(form);
    keepSoon(form);
  }

  function start() {
    if (!data || forms.size === 0) return;
    for (const form of forms.values()) {
      for (const choice of form.querySelectorAll("select[data-fills]")) {
        if (choice.value) fillFrom(form, choice);
      }
      for (const body of form.querySelectorAll("[data-first]")) {
        setRows(form, body.dataset.rows, body.dataset.first.split(" ").map((one) => one.split("*")));
      }
      refresh(form);
      form.addEventListener("input", (event) => changed(form, event.target));
      form.addEventListener("submit", (event) => event.preventDefault());
    }
    restore();
    window.addEventListener("hashchange", restore);
    window.addEventListener("pagehide", keep);
  }

  window.bench_kit = {
    answers, data, start, Refused,
    read, rows, rowFields, someRows, readParts, blendNamed,
    name, percent, degrees, span, warmth,
    inOneLine, put, clear, fill, command,
  };
})();
