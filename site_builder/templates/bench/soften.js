// Estimate softening.
(function (kit) {
  "use strict";
  const { data, read, readParts, name, percent, degrees, warmth, put, clear, command } = kit;
  const celsius = (value) => (data.degrees === "°F" ? bench.celsius_of(value) : value);

  const NO_CHANCE = "Not known: the chance to hold that temperature:";
  const NOT_SERVICE =
    "not a service temperature: creep under a plate's own load begins well below it";

  function soften(form) {
    const { method, target, floor, against, width } = form.elements;
    const { chosenMethod, arranged, spoken, tooWide } = kit.estimate;
    const parts = readParts(form);
    const shares = bench.part_shares(parts.map(({ part }) => part));
    const id = chosenMethod(parts, shares, method.value);
    const asked = { target: read(target), floor: read(floor), width: read(width), against: against.value };
    const blend = arranged(parts, shares, id);
    clear(form);
    command(form, parts, (method.value ? ` --method ${id}` : "") + options(asked));
    put(form, "summary", spoken(blend));
    put(form, "method", data.methods[id].name);
    if (asked.floor !== null) put(form, "floor", floorSaid(parts, shares, method.value, asked.floor));
    if (asked.against) put(form, "against", compared(parts, shares, id, asked.against));
    if (blend.unknown) return;
    put(form, "tests", testsSaid(blend.method.tests));
    if (!tooWide(blend)) putBand(form, blend);
    putTests(form, parts, id, blend, asked);
  }

  function options({ target, floor, width, against }) {
    const unit = data.degrees.slice(1);
    return (target === null ? "" : ` --target ${target}${unit}`) +
      (floor === null ? "" : ` --floor ${floor}${unit}`) +
      (against ? ` --against ${against}` : "") +
      (width === null ? "" : ` --width ${width}`);
  }

  function testsSaid(tests) {
    return kit.estimate.counted(tests) + (tests ? "" : ": the ratio does not decide this");
  }

  function putBand(form, blend) {
    const band = kit.estimate.bandOf(blend);
    put(form, "middle", `${bench.printed(degrees(band[1]), 0)} ${data.degrees}, the middle of the band and no more`);
    put(form, "band", warmth(band));
    put(form, "lot", warmth(bench.new_lot_band(band, blend.list, blend.method.lot)));
  }

  function putTests(form, parts, id, blend, { target, width }) {
    const of = turnedPlace(parts, blend);
    if (target !== null) put(form, "target", aimed(blend, of, target));
    const resin = bench.share_of(blend.list, resins(blend));
    const tooMuch = bench.too_much(id, resin);
    if (tooMuch) {
      const fit = data.methods[bench.method_for(resin)].name;
      put(form, "next", `none by ${blend.method.name}: too much ${tooMuch} for this test. Ask by ${fit}.`);
      return;
    }
    put(form, "next", nextTest(blend, of, id));
    put(form, "reference", reference(blend));
    if (width !== null) put(form, "until", until(blend, of, id, width));
  }

  // The share a repairer would turn: the first resin, else the last component.
  function turnedPlace(parts, blend) {
    const resin = parts.find(({ id }) => data.materials[id].resin);
    return blend.order.indexOf((resin || parts[parts.length - 1]).id);
  }

  function aimed(blend, of, target) {
    const limit = data.figures.softener;
    const ranges = blend.order.length < 2
      ? []
      : bench.open_shares(celsius(target), blend.list, of, blend.bodies, limit, ...blend.model);
    const said = `${target} ${data.degrees}`;
    if (!ranges.length) return `No share of this blend has a band that reaches ${said}.`;
    const shown = ranges.map(([low, high]) => `${bench.printed(100 * low, 0)} to ${percent(high, 0)}`);
    const open = `${name(blend.order[of])} at ${shown.join(" and ")} cannot be ruled out.`;
    return blend.method.tests
      ? `For ${said}: ${open}`
      : `For ${said} the ratio does not decide: ${open}`;
  }

  function resins(blend) {
    return blend.order.map((id) => data.materials[id].resin);
  }

  function nextTest(blend, of, id) {
    const { method, model } = blend;
    const limit = data.figures.softener;
    const [share, after] = bench.share_to_test(
      blend.list, of, blend.bodies, limit, model[4], method.noise, method.lot, resins(blend), id);
    const tested = bench.turned(blend.list, of, share);
    const shown = blend.order.map((id, place) => `${percent(tested[place], 0)} ${name(id)}`);
    const now = bench.band_half_width(kit.estimate.termsOf(blend, blend.list), model[4]);
    return `${shown.join(", ")}, by ${method.name}. One reading would bring the band from ` +
      `± ${bench.printed(now, 1)} to ± ${bench.printed(after, 1)} °C.`;
  }

  function reference(blend) {
    const asked = blend.method.reference;
    if (!asked) return "";
    const terms = kit.estimate.termsOf(blend, blend.list);
    const after = bench.half_width_with(terms, blend.model[4], blend.shared, asked.own);
    return `${name(asked.material)} of the kept lot, beside session ${asked.session}: to ± ${bench.printed(after, 1)} °C.`;
  }

  function until(blend, of, id, width) {
    const { method, model } = blend;
    const count = bench.tests_until(
      blend.list, of, blend.bodies, data.figures.softener, model[4], method.noise, method.lot,
      resins(blend), id, width);
    if (count < 0) return `± ${width} °C is not reached with 60 tests on this rig: check its thermometer in melting ice and boiling water.`;
    if (count === 0) return `The band lies within ± ${width} °C already.`;
    return `± ${width} °C takes ${count} more ${count === 1 ? "test" : "tests"}, each the one that tells most.`;
  }

  // The chance to hold a temperature comes from step creep alone.
  function floorSaid(parts, shares, named, floor) {
    const said = `${floor} ${data.degrees}`;
    const id = named || Object.keys(data.methods).find((each) => data.methods[each].creep);
    const { creep, tests, name: by, lot } = data.methods[id];
    if (!creep) return `${NO_CHANCE} ${by} is ${NOT_SERVICE}. To find out: test step creep, and ask by it.`;
    const blend = kit.estimate.arranged(parts, shares, id);
    if (blend.unknown || !tests || kit.estimate.tooWide(blend)) {
      return `${NO_CHANCE} no step creep test of this shop bears on it. To find out: ` +
        "hang a waxed plate of this blend under its own load and warm it in steps.";
    }
    const chance = bench.chance_of_floor(celsius(floor), kit.estimate.bandOf(blend), blend.list, lot);
    return `${percent(chance, 0)} that a batch from new lots holds ${said} by ${by}; no promise.`;
  }

  function compared(parts, shares, id, against) {
    const { parts: others, name: blendName } = data.blends[against];
    const whole = bench.part_shares(Object.values(others));
    const other = Object.fromEntries(Object.keys(others).map((each, place) => [each, whole[place]]));
    const both = kit.estimate.arranged(parts, shares, id, other);
    const by = data.methods[id].name;
    if (both.unknown || !both.method.tests) {
      return `Not known: whether this blend is firmer than ${blendName}: no test of this shop says. ` +
        "To find out: put both side by side in one warm box under the same load, and see which moves first.";
    }
    const chance = bench.chance_firmer(both.list, both.there, both.bodies, ...both.model, both.method.lot);
    const verdict = bench.verdict_of(chance);
    if (verdict === "cannot tell") return `Cannot tell by ${by} whether it is firmer than ${blendName}: ${percent(chance, 0)} that it is.`;
    const sure = verdict === "firmer" ? chance : bench.rest_of(chance);
    return `${verdict === "firmer" ? "Firmer" : "Softer"} than ${blendName} by ${by}, with ${percent(sure, 0)}.`;
  }

  kit.answers.soften = soften;
})(window.bench_kit);
