// The live workings: reads the fields of a form, asks the functions in formulas.js, which are
// written from the handbook's own Python source, and prints through bench.printed.
// Nothing of the trade is reckoned here. State stands in the address, after the #.
(function () {
  "use strict";
  const data = window.bench_data;
  const answers = { mix, soften };
  const forms = new Map();
  for (const form of document.querySelectorAll("form[data-working]")) {
    forms.set(form.dataset.working, form);
  }
  if (!data || forms.size === 0) return;
  const NUMBER = new RegExp(`^(?:${data.number})$`, "i");

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

  function partFields(form) {
    return [...form.querySelectorAll("[data-rows=parts] tr:not([hidden]) input")];
  }

  // A part of nought, or none, leaves its material out.
  function readParts(form) {
    const parts = partFields(form)
      .map((field) => ({ id: field.dataset.material, part: read(field) }))
      .filter(({ part }) => part);
    if (parts.length) return parts;
    throw new Refused(form.elements.blend, "", "a material with parts above 0", "Parts by mass");
  }

  function addPart(form, id, text) {
    const body = form.querySelector("[data-rows=parts]");
    const row = body.firstElementChild.cloneNode(true);
    const field = row.querySelector("input");
    row.hidden = false;
    row.firstElementChild.textContent = data.materials[id].name;
    field.value = text;
    field.dataset.material = id;
    field.dataset.label = `${data.materials[id].name}, parts by mass`;
    field.setAttribute("aria-label", field.dataset.label);
    body.append(row);
    return field;
  }

  function setParts(form, entries) {
    for (const field of partFields(form)) field.closest("tr").remove();
    for (const [id, text] of entries) if (data.materials[id]) addPart(form, id, String(text));
  }

  function blendNamed(parts) {
    const same = ([, blend]) =>
      Object.keys(blend.parts).length === parts.length &&
      parts.every(({ id, part }) => blend.parts[id] === part);
    return (Object.entries(data.blends).find(same) || [""])[0];
  }

  // Printing

  const name = (id) => data.materials[id].name;
  const percent = (share, decimals) => `${bench.printed(100 * share, decimals)} %`;
  const degrees = (celsius) => (data.degrees === "°F" ? bench.fahrenheit(celsius) : celsius);
  const span = (low, high, unit) => `${bench.printed(low, 0)} to ${bench.printed(high, 0)} ${unit}`;
  const warmth = (band) => span(degrees(band[0]), degrees(band[2]), data.degrees);

  function put(form, key, text) {
    const place = form.querySelector(`[data-out=${key}]`);
    if (place.textContent !== text) place.textContent = text;
    const label = form.querySelector(`[data-for=${key}]`);
    if (label) label.hidden = place.hidden = text === "";
  }

  function clear(form) {
    for (const place of form.querySelectorAll("[data-out]")) put(form, place.dataset.out, "");
    const rows = form.querySelector("[data-rows=weights]");
    if (rows) rows.replaceChildren();
  }

  function weightRow(...cells) {
    const row = document.createElement("tr");
    cells.forEach((text, place) => {
      const cell = document.createElement(place ? "td" : "th");
      if (place) cell.className = "right";
      else cell.scope = "row";
      cell.textContent = text;
      row.append(cell);
    });
    return row;
  }

  function command(form, parts, rest) {
    const blend = form.elements.blend.value;
    const own = parts.map(({ id, part }) => ` --parts ${id}=${part}`).join("");
    put(form, "command", `benchbinder ${form.dataset.working}${blend ? ` ${blend}` : own}${rest}`);
  }

  // The blend as the model sees it: waxes and resins in its order, then softeners

  function chosenMethod(parts, shares, named) {
    return named || bench.method_for(bench.share_of(shares, parts.map(({ id }) => data.materials[id].resin)));
  }

  function arranged(parts, shares, id) {
    const method = data.methods[id];
    const held = new Map(parts.map((one, place) => [one.id, shares[place]]));
    const inOrder = Object.keys(data.materials).filter((each) => held.has(each));
    const bodies = inOrder.filter((each) => !data.materials[each].softens);
    const order = [...bodies, ...inOrder.filter((each) => data.materials[each].softens)];
    const list = order.map((each) => held.get(each));
    const softener = bench.softener_share(list, bodies.length);
    const unmet = bodies.find((each) => !(each in method.ends));
    if (softener > data.figures.softener + 1e-12) {
      return { unknown: `a blend with ${percent(softener, 0)} softener; test the blend itself` };
    }
    if (unmet) return { unknown: `${name(unmet)} by ${method.name}; test it and add a row to facts.csv` };
    const terms = [...bodies, ...bodies.flatMap((a, i) => bodies.slice(i + 1).map((b) => `${a} ${b}`)), "softener"];
    return {
      method,
      order,
      list,
      model: [
        bodies.map((each) => method.ends[each]),
        bodies.map((a) => bodies.map((b) => method.bends[`${a} ${b}`] || 0)),
        method.slope,
        terms.map((row) => terms.map((term) => method.covariance[row][term] || 0)),
      ],
      bodies: bodies.length,
    };
  }

  function bandOf(blend) {
    return bench.estimate_of(blend.list, blend.bodies, ...blend.model);
  }

  function spoken(blend) {
    if (blend.unknown) return `Softening not known: ${blend.unknown}.`;
    const tests = `resting on ${blend.method.tests} tests of this shop`;
    return `Softens from ${warmth(bandOf(blend))} by ${blend.method.name} (95 % band, ${tests}).`;
  }

  // Mix a batch

  // Gives the wanted total in the unit of the scale, and how the command line says it.
  function wanted(form, parts, shares) {
    const { unit, grams } = data.scale;
    const { plate, strained, potted } = data.figures;
    const fields = form.elements;
    if (fields.way.value === "plates") {
      const plates = read(fields.plates);
      const need = [0, 1].map((end) => bench.plates_total(plates, plate[end], strained[end], potted[end], grams));
      return { total: need[1], rest: ` --plates ${plates}`, need };
    }
    if (fields.way.value === "have") {
      const held = read(fields.held);
      const of = parts.findIndex(({ id }) => id === fields.of.value);
      const total = bench.limited_total(held, shares[of]);
      return { total, rest: ` --have ${fields.of.value}=${held}${unit}`, held, of };
    }
    const total = read(fields.total);
    return { total, rest: ` --total ${total}${unit}` };
  }

  function mix(form) {
    const { shown, kilograms } = data.scale;
    const { strained, potted, filled } = data.figures;
    const parts = readParts(form);
    const shares = bench.part_shares(parts.map(({ part }) => part));
    const ask = wanted(form, parts, shares);
    const step = read(form.elements.step);
    let steps = bench.steps_of(ask.total, step);
    if (ask.held) steps = bench.steps_within(shares, steps, ask.of, ask.held, step);
    const counts = bench.weigh_out(shares, steps);
    if (Math.min(...counts) < 1) {
      throw new Refused(form.elements.way, `${bench.printed(ask.total, 2)} ${shown}`,
        "enough that each material weighs at least one step of the scale", "Total");
    }
    const decimals = bench.decimals_of(step);
    const weight = (count) => bench.printed(bench.mass_of(count, step), decimals);
    const rows = parts.map(({ id }, place) => weightRow(
      name(id), percent(shares[place], 2), weight(counts[place]),
      percent(bench.share_by_mass(counts[place], steps), 2)));
    const masses = bench.batch_masses(counts, step, kilograms);
    const [most, least] = [1, 0].map((end) =>
      bench.melt_millilitres(masses, parts.map(({ id }) => data.materials[id].densities[end])));
    const left = [1, 0].map((end) => bench.left_after_losses(ask.total, strained[end], potted[end]));
    const unpriced = parts.filter(({ id }) => data.materials[id].price === null);
    const blend = arranged(parts, shares, chosenMethod(parts, shares, ""));
    clear(form);
    form.querySelector("[data-rows=weights]").replaceChildren(...rows);
    put(form, "total", weight(steps));
    put(form, "summary", `Weigh out ${weight(steps)} ${shown}: ` +
      parts.map(({ id }, place) => `${name(id)} ${weight(counts[place])} ${shown}`).join(", ") + ".");
    put(form, "left", span(...left, shown));
    put(form, "volume", span(least, most, "mL"));
    put(form, "pot", `${bench.printed(bench.pot_millilitres(most, filled), 0)} mL`);
    put(form, "cost", unpriced.length
      ? `not known: no price for ${unpriced.map(({ id }) => name(id)).join(", ")}`
      : `${bench.printed(bench.batch_cost(masses, parts.map(({ id }) => data.materials[id].price)), 2)} ${data.currency}`);
    put(form, "softening", spoken(blend));
    put(form, "notes", mixNotes(ask, parts, shares, counts).join(" "));
    command(form, parts, ask.rest);
  }

  function mixNotes(ask, parts, shares, counts) {
    const notes = parts.map(({ id }) => data.materials[id].density_told).filter(Boolean).map((told) => `${told}.`);
    const drift = bench.telling_drift(shares, counts);
    if (ask.need) notes.unshift(`The plates take ${span(...ask.need, data.scale.shown)}: weighed out for the high end.`);
    if (drift) notes.unshift(`The scale's step moves the ratio by ${percent(drift, 1)} of the batch: weigh more at once, or use a finer scale.`);
    if (parts.some(({ id }) => data.materials[id].softens)) {
      notes.push("A softener takes firmness away; how much is from memory. Test before use.");
    }
    return notes;
  }

  // Estimate softening

  function soften(form) {
    const parts = readParts(form);
    const shares = bench.part_shares(parts.map(({ part }) => part));
    const id = chosenMethod(parts, shares, form.elements.method.value);
    const target = read(form.elements.target);
    const blend = arranged(parts, shares, id);
    clear(form);
    const method = form.elements.method.value ? ` --method ${id}` : "";
    const aim = target === null ? "" : ` --target ${target}${data.degrees.slice(1)}`;
    command(form, parts, method + aim);
    put(form, "summary", spoken(blend));
    put(form, "method", data.methods[id].name);
    if (blend.unknown) return;
    const band = bandOf(blend);
    const { tests } = blend.method;
    put(form, "middle", `${bench.printed(degrees(band[1]), 0)} ${data.degrees}, the middle of the band and no more`);
    put(form, "band", warmth(band));
    put(form, "tests", `${tests} tests of this shop${tests ? "" : ": the ratio does not decide this"}`);
    const of = turnedPlace(parts, blend);
    if (target !== null) put(form, "target", aimed(blend, of, target));
    put(form, "next", nextTest(blend, of, band));
  }

  // The share a repairer would turn: the first resin, else the last component.
  function turnedPlace(parts, blend) {
    const resin = parts.find(({ id }) => data.materials[id].resin);
    return blend.order.indexOf((resin || parts[parts.length - 1]).id);
  }

  function aimed(blend, of, target) {
    const celsius = data.degrees === "°F" ? bench.celsius_of(target) : target;
    const limit = data.figures.softener;
    const ranges = blend.order.length < 2
      ? []
      : bench.open_shares(celsius, blend.list, of, blend.bodies, limit, ...blend.model);
    const said = `${target} ${data.degrees}`;
    if (!ranges.length) return `No share of this blend has a band that reaches ${said}.`;
    const shown = ranges.map(([low, high]) => `${bench.printed(100 * low, 0)} to ${percent(high, 0)}`);
    return `For ${said} the ratio does not decide: ${name(blend.order[of])} at ${shown.join(" and ")} cannot be ruled out.`;
  }

  function nextTest(blend, of, band) {
    const { softener, noise } = data.figures;
    const [share, after] = bench.share_to_test(blend.list, of, blend.bodies, softener, blend.model[3], noise);
    const tested = bench.turned(blend.list, of, share);
    const shown = blend.order.map((id, place) => `${percent(tested[place], 0)} ${name(id)}`);
    const now = bench.band_half_width(
      bench.blend_terms(bench.body_shares(blend.list, blend.bodies), bench.softener_share(blend.list, blend.bodies)),
      blend.model[3]);
    return `${shown.join(", ")}, by ${blend.method.name}. One reading would bring the band from ` +
      `± ${bench.printed(now, 1)} to ± ${bench.printed(after, 1)} °C.`;
  }

  // State in the address: #mix:blend=…&parts=…;soften:…

  function state(form) {
    const kept = new URLSearchParams();
    kept.set("parts", partFields(form).map((field) => `${field.dataset.material}*${field.value.trim()}`).join(" "));
    for (const field of form.elements) {
      if (field.name && !["blend", "add", "summary"].includes(field.name) && field.value) kept.set(field.name, field.value);
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
      setParts(form, (kept.get("parts") || "").split(" ").filter(Boolean).map((one) => one.split("*")));
      follow(form);
      for (const [key, value] of kept) if (key !== "parts" && form.elements[key]) form.elements[key].value = value;
      refresh(form);
    }
  }

  // Keeps the fields that hang on other fields in step with them.
  function follow(form) {
    const ids = partFields(form).map((field) => field.dataset.material);
    const { of, way, blend } = form.elements;
    if (of) {
      const before = of.value;
      of.replaceChildren(...ids.map((id) => new Option(name(id), id, false, id === before)));
    }
    for (const place of way ? form.querySelectorAll("[data-way]") : []) {
      place.hidden = place.dataset.way !== way.value;
    }
    try {
      blend.value = blendNamed(readParts(form));
    } catch (fault) {
      if (!(fault instanceof Refused)) throw fault;
      blend.value = "";
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

  function changed(form, field) {
    if (field.name === "blend" && field.value) setParts(form, Object.entries(data.blends[field.value].parts));
    if (field.name === "add" && field.value) {
      const id = field.value;
      const there = partFields(form).find((each) => each.dataset.material === id);
      (there || addPart(form, id, "")).focus();
      field.value = "";
    }
    refresh(form);
    keepSoon(form);
  }

  for (const form of forms.values()) {
    setParts(form, Object.entries(data.blends[form.elements.blend.value].parts));
    refresh(form);
    form.addEventListener("input", (event) => changed(form, event.target));
    form.addEventListener("submit", (event) => event.preventDefault());
  }
  restore();
  window.addEventListener("hashchange", restore);
  window.addEventListener("pagehide", keep);
})();
